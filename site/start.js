// Starts the page's program and says in words what is wrong when it cannot
// run. Written in old JavaScript, so that a browser too old for the program
// can still read this much and say so.
(function () {
  'use strict';

  var script = document.currentScript;
  var program = script && script.getAttribute('data-program');
  var root = document.documentElement;
  var status = document.getElementById('status');
  var loading = document.getElementById('loading');
  var progress = document.getElementById('progress');
  var problem = document.getElementById('problem');
  var reload = document.getElementById('reload');

  var TOO_OLD = 'This browser is too old to work the floor out. Update it, or open the same link in a newer one; the link holds your job.';
  var INCOMPLETE = 'The page did not arrive complete. Check the connection and reload; the link holds your job.';
  var TOO_OLD_FOR_FILE = 'This browser is too old to open the page as one file. Update it, or open the file in a newer one; the link holds your job.';
  var STOPPED = 'The page has stopped. Reload it; the link holds your job.';

  var HOUR = 3600000; // ms

  // The page as one file has everything in itself, each under the name of its
  // source, the programs packed.
  var single = root.hasAttribute('data-single');
  // A frame in a sandbox has no origin of its own.
  var boxed = !single && self.origin === 'null';
  function inside(name) { return document.getElementById(name).textContent; }

  // Opened without a link, the file has the job that it was taken with. The
  // page at its own address is where links lead.
  if (!single) root.setAttribute('data-home', location.origin + location.pathname);
  else if (location.hash.length < 2 && root.getAttribute('data-job')) location.replace('#' + root.getAttribute('data-job'));

  // Styles of what is not seen at first wait until the page stands, unless the
  // link leads to it.
  function restyle() {
    var later = document.querySelectorAll('link[rel="later"]');
    for (var i = 0; i < later.length; i++) later[i].rel = 'stylesheet';
  }
  if (/[#&?]face=/.test(location.hash + location.search)) restyle();

  // The first problem is the cause; what follows from it would only hide it.
  function show(words) {
    if (!problem.hidden) return;
    loading.hidden = true;
    problem.textContent = words;
    problem.hidden = false;
    reload.hidden = words === TOO_OLD || words === TOO_OLD_FOR_FILE;
    status.hidden = false;
  }

  var reloading = false;
  function again() {
    if (!reloading) location.reload();
    reloading = true;
  }

  // Loads the page again, with the new version if one is waiting. The program
  // calls this when the person agrees.
  window.keelrowRenew = function () {
    function renew(registration) {
      var next = registration && registration.waiting;
      if (!next) return again();
      next.addEventListener('statechange', function () {
        if (next.state === 'activated' || next.state === 'redundant') again();
      });
      next.postMessage('use-new-version');
    }
    try {
      navigator.serviceWorker.getRegistration().then(renew).catch(again);
    } catch (e) { // this browser keeps nothing
      again();
    }
  };

  reload.onclick = window.keelrowRenew;

  // Has what is kept on the device looked through. answer gets how many files
  // had to be fetched again, -1 if that could not be done, and the version.
  function mend(registration, answer) {
    var worker = registration && registration.active;
    if (!worker || worker.state !== 'activated') return false;
    var channel = new MessageChannel();
    channel.port1.onmessage = function (event) { answer(event.data.mended, event.data.version); };
    worker.postMessage('mend', [channel.port2]);
    return true;
  }

  // Does the same when a program cannot be run, then what comes after.
  function mendFor(then) {
    try {
      navigator.serviceWorker.getRegistration().then(function (registration) {
        if (!mend(registration, then)) then(0);
      }).catch(function () { then(0); });
    } catch (e) { // this browser keeps nothing
      then(0);
    }
  }

  // Has the page kept on the device, and says in data-offline when it is
  // ('ready') and when a new version waits ('update'). It comes after the
  // page stands, so that it holds nothing up. A browser that keeps nothing,
  // or not in this frame, is no fault.
  function keep() {
    if (single) return; // it is on the device already
    var container;
    try {
      container = navigator.serviceWorker;
    } catch (e) { // closed to this frame
      return;
    }
    if (!container || !window.isSecureContext || typeof MessageChannel !== 'function') return;

    // Another tab may agree to a new version too: two builds never mix, so
    // every page of the old one loads again.
    var held = !!container.controller;
    container.addEventListener('controllerchange', function () {
      if (held) again();
      held = true;
    });

    container.register('sw.js', { updateViaCache: 'none' }).then(function (registration) {
      function look() {
        mend(registration, function (mended, version) {
          if (mended < 0 && !registration.waiting) return; // what is kept is not whole
          root.setAttribute('data-version', version);
          root.setAttribute('data-offline', registration.waiting ? 'update' : 'ready');
          dispatchEvent(new Event('keelrow-offline'));
        });
      }
      function follow(worker) {
        if (worker) worker.addEventListener('statechange', look);
      }
      follow(registration.installing);
      follow(registration.waiting);
      follow(registration.active);
      registration.addEventListener('updatefound', function () { follow(registration.installing); });
      look();

      // A tab that stays open for days asks for a new version when somebody
      // comes back to it.
      var asked = Date.now();
      document.addEventListener('visibilitychange', function () {
        if (document.visibilityState !== 'visible' || Date.now() - asked < HOUR) return;
        asked = Date.now();
        registration.update().catch(function () {}); // no connection: the next time
      });
    }).catch(function () {});
  }

  // Hands over the page as one file that opens with the job of a link, and
  // says whether it could.
  window.keelrowOneFile = function (job, said) {
    function fill(html, name, text) {
      var quoted = text.replace(/&/g, '&amp;').replace(/"/g, '&quot;');
      return html.replace(name + '=""', function () { return name + '="' + quoted + '"'; });
    }
    fetch('keelrow-single.html', { cache: 'no-cache' }).then(function (response) {
      return response.text();
    }).then(function (html) {
      // What answers without a connection, or half of the file, is not it.
      if (html.indexOf(' data-single ') < 0 || !/<\/html>\s*$/.test(html)) throw new Error('it is not the page');
      html = fill(fill(html, 'data-job', job), 'data-home', root.getAttribute('data-home'));
      var link = document.createElement('a');
      link.href = URL.createObjectURL(new Blob([html], { type: 'text/html' }));
      link.download = 'keelrow.html';
      link.click();
      setTimeout(function () { URL.revokeObjectURL(link.href); }, 60000);
      said(true);
    }).catch(function () { said(false); });
  };

  // Starts the desk, the page's second program.
  window.keelrowDesk = function () {
    var name = script.getAttribute('data-desk');
    // Boxed, it may start a worker from text only, which brings its scripts by
    // their whole addresses.
    if (!single && !boxed) return new Worker(name);
    var parts = boxed ? [document.querySelector('script[src*="wasm_exec"]').src, new URL(name, document.baseURI).href].map(function (url) {
      return 'importScripts(' + JSON.stringify(url) + ');';
    }) : [inside(name), '\n', inside('wasm_exec.js')];
    var text = new Blob(parts, { type: 'text/javascript' });
    var worker = new Worker(URL.createObjectURL(text));
    function hand(bytes) { worker.postMessage({ program: bytes }); }
    bring(boxed ? script.getAttribute('data-desk-program') : 'desk.wasm').then(function (response) { return response.arrayBuffer(); }).then(hand, function (error) {
      console.error(error);
      hand(null);
    });
    return worker;
  };

  // Whether a style sheet is there: of one that did not arrive some browsers
  // have nothing and some an empty one that they show to nobody.
  function styled(link) {
    try {
      return !!link.sheet && !!link.sheet.cssRules;
    } catch (e) {
      return boxed; // there it is shown to nobody either way
    }
  }

  // The program calls this once its page stands.
  window.keelrowReady = function () {
    if (problem.hidden) status.hidden = true;
    var sheets = document.querySelectorAll('link[rel="stylesheet"]:not([media])');
    for (var i = 0; i < sheets.length; i++) {
      if (!styled(sheets[i])) show(INCOMPLETE);
    }
    restyle();
    keep();
  };

  if (!program || typeof WebAssembly !== 'object' || typeof fetch !== 'function' ||
      typeof globalThis !== 'object' || typeof TextDecoder !== 'function') {
    show(TOO_OLD);
    return;
  }
  if (single && (typeof DecompressionStream !== 'function' || typeof Blob.prototype.stream !== 'function')) {
    show(TOO_OLD_FOR_FILE);
    return;
  }
  if (typeof Go !== 'function') {
    show(INCOMPLETE);
    return;
  }

  // The answer that a program comes in.
  function bring(name) {
    if (!single) return fetch(name);
    return new Promise(function (done) {
      var packed = atob(inside(name)), bytes = new Uint8Array(packed.length);
      for (var i = 0; i < packed.length; i++) bytes[i] = packed.charCodeAt(i);
      var full = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'));
      done(new Response(full, { headers: { 'Content-Type': 'application/wasm' } }));
    });
  }

  // The copy of the response is counted as it arrives, decompressed, as is
  // the size that the bar was given as its end.
  function count(response) {
    if (!response.body || !response.body.getReader) return;
    var reader = response.body.getReader(), sum = 0;
    function next(part) {
      if (part.done) return;
      sum += part.value.length;
      progress.value = sum;
      return reader.read().then(next);
    }
    // A download that breaks off is reported where the program is read.
    reader.read().then(next).catch(function () {});
  }

  function compile(response, imports) {
    var type = response.headers.get('Content-Type') || '';
    if (WebAssembly.instantiateStreaming && type.indexOf('application/wasm') === 0) {
      return WebAssembly.instantiateStreaming(response, imports);
    }
    return response.arrayBuffer().then(function (bytes) { return WebAssembly.instantiate(bytes, imports); });
  }

  var go = new Go();
  bring(program).then(function (response) {
    if (!response.ok) throw new Error(program + ': ' + response.status);
    count(response.clone());
    return compile(response, go.importObject);
  }).then(function (result) {
    // A fault inside the program that it cannot report itself, such as no
    // memory left, arrives here or, once it runs, as an error of the window.
    addEventListener('error', function (event) {
      if (event.error instanceof WebAssembly.RuntimeError) show(STOPPED);
    });
    return go.run(result.instance).then(function () { show(STOPPED); }, function (error) {
      console.error(error);
      show(STOPPED);
    });
  }, function (error) {
    console.error(error);
    if (!(error instanceof WebAssembly.CompileError || error instanceof WebAssembly.LinkError)) return show(INCOMPLETE);
    mendFor(function (mended) {
      if (mended > 0) again();
      else show(mended < 0 ? INCOMPLETE : TOO_OLD);
    });
  });
})();
