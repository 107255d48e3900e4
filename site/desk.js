// The worker that runs the desk, the page's second program. Messages in are
// {id, link, what}; messages out {id, text} or {id, problem}.
'use strict';

// In the page as one file this text comes from the page, with wasm_exec.js
// behind it, and the program comes as a message of its own: {program}.
const single = location.protocol === 'blob:';
if (!single) importScripts('{{name wasm_exec.js}}');

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

async function run(start) {
  try {
    const go = new Go();
    const { instance } = await start(go.importObject);
    await go.run(instance);
  } catch (error) {
    console.error(error);
    postMessage({ id: 0, problem: 'stopped' });
  }
}

onmessage = ({ data }) => {
  if ('program' in data) run((imports) => WebAssembly.instantiate(data.program, imports));
  else if (ready) answer(data);
  else waiting.push(data);
};

if (!single) {
  run(async (imports) => {
    const response = await fetch('{{name desk.wasm}}');
    if (!response.ok) throw new Error(response.status);
    return WebAssembly.instantiateStreaming(response, imports);
  });
}
