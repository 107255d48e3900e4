// Starts the page's program and says in words what is wrong when it cannot
// run. Written in old JavaScript, so that a browser too old for the program
// can still read this much and say so.
(function () {
  'use strict';

  var program = document.currentScript && document.currentScript.getAttribute('data-program');
  var status = document.getElementById('status');
  var loading = document.getElementById('loading');
  var progress = document.getElementById('progress');
  var problem = document.getElementById('problem');
  var reload = document.getElementById('reload');

  var TOO_OLD = 'This browser is too old to work the floor out. Update it, or open the same link in a newer one; the link holds your job.';
  var INCOMPLETE = 'The page did not arrive complete. Check the connection and reload; the link holds your job.';
  var STOPPED = 'The page has stopped. Reload it; the link holds your job.';

  // The first problem is the cause; what follows from it would only hide it.
  function show(words) {
    if (!problem.hidden) return;
    loading.hidden = true;
    problem.textContent = words;
    problem.hidden = false;
    reload.hidden = words === TOO_OLD;
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

  // Has the page kept on the device, and says in data-offline when it is
  // ('ready') and when a new version waits ('update'). It comes after the
  // page stands, so that it holds nothing up. A browser that keeps nothing,
  // or not in this frame, is no fault.
  function keep() {
    var root = document.documentElement, container;
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
        var now = registration.active;
        if (!now || now.state !== 'activated') return;
        var answer = new MessageChannel();
        answer.port1.onmessage = function (event) {
          root.setAttribute('data-version', event.data);
          root.setAttribute('data-offline', registration.waiting ? 'update' : 'ready');
          dispatchEvent(new Event('keelrow-offline'));
        };
        now.postMessage('version', [answer.port2]);
      }
      function follow(worker) {
        if (worker) worker.addEventListener('statechange', look);
      }
      follow(registration.installing);
      follow(registration.waiting);
      follow(registration.active);
      registration.addEventListener('updatefound', function () { follow(registration.installing); });
      look();
    }).catch(function () {});
  }

  // The program calls this once its page stands.
  window.keelrowReady = function () {
    if (problem.hidden) status.hidden = true;
    keep();
  };

  if (!program || typeof WebAssembly !== 'object' || typeof fetch !== 'function' ||
      typeof globalThis !== 'object' || typeof TextDecoder !== 'function') {
    show(TOO_OLD);
    return;
  }
  if (typeof Go !== 'function') {
    show(INCOMPLETE);
    return;
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
  fetch(program).then(function (response) {
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
    show(error instanceof WebAssembly.CompileError || error instanceof WebAssembly.LinkError ? TOO_OLD : INCOMPLETE);
  });
})();
