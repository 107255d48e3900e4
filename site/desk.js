// The worker that runs the desk, the page's second program. Messages in are
// {id, link, what}; messages out {id, text} or {id, problem}.
'use strict';

importScripts('{{name wasm_exec.js}}');

const waiting = [];
let ready = false;

function answer({ id, link, what }) {
  const { text, problem } = self.keelrowDesk(link, what);
  postMessage(problem ? { id, problem } : { id, text });
}

self.keelrowDeskReady = () => {
  ready = true;
  waiting.splice(0).forEach(answer);
};

onmessage = (event) => {
  if (ready) answer(event.data);
  else waiting.push(event.data);
};

const go = new Go();
fetch('{{name desk.wasm}}')
  .then((response) => {
    if (!response.ok) throw new Error(response.status);
    return WebAssembly.instantiateStreaming(response, go.importObject);
  })
  .then((result) => go.run(result.instance))
  .catch((error) => {
    console.error(error);
    postMessage({ id: 0, problem: 'stopped' });
  });
