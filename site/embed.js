// One tag that puts a floor into any page:
//
//   <script src="https://HOST/embed.js" defer></script>
//   <keelrow-floor job="room=4200x3600&block=70x350" step="3"></keelrow-floor>
//
// Attributes: job, a link or what stands behind its '#'; step or ask, what of
// the lesson is open; lang; title; height in pixels, else the frame is as high
// as what is in it. Methods return promises: open(job), step(n), ask(n),
// play(), pause(), repeat(), next(), back(), figures(), link(). Events, with
// what the page says in detail: keelrow-ready, keelrow-step, keelrow-played,
// keelrow-answer, keelrow-size. Messages are of version 1.
(() => {
  'use strict';

  const VERSION = 1;
  const PATIENCE = 30000; // ms that an answer may take, the first load included
  const home = new URL('./', document.currentScript.src);

  class KeelrowFloor extends HTMLElement {
    static observedAttributes = ['job', 'step', 'ask'];

    #frame;
    #waiting = new Map();
    #last = 0;
    #ready;
    #hear = (event) => this.#heard(event);

    connectedCallback() {
      if (!this.shadowRoot) this.attachShadow({ mode: 'open' });
      if (!this.style.display) this.style.display = 'block';
      this.#ready = Promise.withResolvers ? Promise.withResolvers() : resolvers();
      this.#ready.promise.catch(() => {});
      addEventListener('message', this.#hear);
      const frame = document.createElement('iframe');
      frame.setAttribute('sandbox', 'allow-scripts');
      frame.loading = 'lazy';
      frame.title = this.title || 'A block floor, step by step';
      Object.assign(frame.style, { display: 'block', width: '100%', border: '0', height: (this.#fixed() || 900) + 'px' });
      frame.src = home.href + '#' + this.#link();
      this.#frame = frame;
      this.shadowRoot.replaceChildren(frame);
    }

    disconnectedCallback() {
      removeEventListener('message', this.#hear);
      for (const { reject, timer } of this.#waiting.values()) {
        clearTimeout(timer);
        reject(new Error('The floor was taken off the page.'));
      }
      this.#waiting.clear();
      this.#ready.reject(new Error('The floor was taken off the page.'));
    }

    attributeChangedCallback(name, before, now) {
      if (!this.#frame || before === null || now === null || before === now) return;
      const done = name === 'job' ? this.open(now) : this[name](Number(now));
      done.catch((error) => console.error('keelrow-floor: ' + error.message));
    }

    open(job) { return this.#send('open', { link: String(job) }); }
    step(n) { return this.#send('step', { step: n }); }
    ask(n) { return this.#send('ask', { ask: n }); }
    play() { return this.#send('play'); }
    pause() { return this.#send('pause'); }
    repeat() { return this.#send('repeat'); }
    next() { return this.#send('next'); }
    back() { return this.#send('back'); }
    figures() { return this.#send('figures').then((said) => said.figures); }
    link() { return this.#send('link').then((said) => said.link); }

    #fixed() { return Number(this.getAttribute('height')) || 0; }

    // The link that the frame opens with. Only this page may steer it.
    #link() {
      const job = this.getAttribute('job') || '';
      const keys = job.slice(job.indexOf('#') + 1).split('&').filter((pair) => pair && !/^(face|host)=/.test(pair));
      keys.push('face=lesson');
      for (const name of ['step', 'ask', 'lang']) {
        if (this.getAttribute(name)) keys.push(name + '=' + encodeURIComponent(this.getAttribute(name)));
      }
      if (/^https?:/.test(location.origin)) keys.push('host=' + location.origin);
      return keys.join('&');
    }

    async #send(what, more) {
      if (!this.isConnected) throw new Error('Put the floor on the page first.');
      this.#frame.loading = 'eager'; // somebody waits for it
      const id = ++this.#last;
      const answer = new Promise((resolve, reject) => {
        const timer = setTimeout(() => {
          this.#waiting.delete(id);
          reject(new Error('The floor does not answer.'));
        }, PATIENCE);
        this.#waiting.set(id, { resolve, reject, timer });
      });
      answer.catch(() => {}); // whoever asked hears of it
      await this.#ready.promise;
      // A frame in a sandbox has no origin that could be named.
      this.#frame.contentWindow.postMessage({ ...more, keelrow: VERSION, id, do: what }, '*');
      return answer;
    }

    #heard({ source, data }) {
      if (source !== this.#frame.contentWindow || !data || data.keelrow !== VERSION) return;
      if (data.said === 'done' || data.said === 'figures' || data.said === 'error') {
        const asked = this.#waiting.get(data.id);
        if (!asked) return;
        this.#waiting.delete(data.id);
        clearTimeout(asked.timer);
        if (data.said === 'error') asked.reject(new Error(data.why));
        else asked.resolve(data);
        return;
      }
      if (data.said === 'ready') this.#ready.resolve();
      if (data.said === 'size' && !this.#fixed() && data.height >= 200 && data.height <= 6000) this.#frame.style.height = data.height + 'px';
      this.dispatchEvent(new CustomEvent('keelrow-' + data.said, { detail: data }));
    }
  }

  function resolvers() {
    const all = {};
    all.promise = new Promise((resolve, reject) => Object.assign(all, { resolve, reject }));
    return all;
  }

  if (!customElements.get('keelrow-floor')) customElements.define('keelrow-floor', KeelrowFloor);
})();
