// What the tests do in the page: find things as a person finds them, by what
// is written on them.
(() => {
  'use strict';
  const tidy = (text) => (text || '').replace(/\s+/g, ' ').trim();
  const CONTROLS = 'button, a[href], input, select, summary, [role="slider"]';

  function seen(e) {
    const r = e.getBoundingClientRect();
    return r.width > 0 && r.height > 0 && e.checkVisibility({ visibilityProperty: true });
  }

  // What a control is called.
  function name(e) {
    const labels = e.labels ? [...e.labels].map((l) => l.textContent).join(' ') : '';
    return tidy(e.getAttribute('aria-label') || labels || e.textContent || e.getAttribute('title'));
  }

  // All controls that can be seen.
  function all(within) {
    const root = within ? document.querySelector(within) : document;
    if (!root) throw new Error('nothing matches ' + within);
    return [...root.querySelectorAll(CONTROLS)].filter(seen);
  }

  function find(label, within) {
    const list = all(within), exact = list.filter((e) => name(e) === label);
    if (exact.length === 1) return exact[0];
    throw new Error((exact.length ? exact.length + ' controls are' : 'no control is') + ' called "' + label +
      '"; there are: ' + list.map(name).join(' | '));
  }

  function one(selector) {
    const e = document.querySelector(selector);
    if (!e) throw new Error('nothing matches ' + selector);
    return e;
  }

  // Where to put the finger: the middle of a control, which has to be in
  // sight and not under anything else.
  function spot(e) {
    const covered = () => {
      const r = e.getBoundingClientRect();
      const x = r.left + r.width / 2, y = r.top + r.height / 2;
      const top = document.elementFromPoint(x, y);
      const hit = top && (e.contains(top) || top.contains(e) && top.tagName === 'LABEL' || e.labels && [...e.labels].some((l) => l.contains(top)));
      return { x, y, hit, top };
    };
    let at = covered();
    if (!at.hit) {
      e.scrollIntoView({ block: 'center', behavior: 'instant' });
      at = covered();
    }
    if (!at.hit) {
      const t = at.top;
      throw new Error('"' + name(e) + '" lies under ' + (t ? t.tagName + '.' + t.getAttribute('class') + '#' + t.id : 'the edge of the window'));
    }
    return [at.x, at.y, control(e)];
  }

  // What a control does, for the tally of what has been tried. Corners, walls,
  // rows and the like are as good as each other.
  function control(e) {
    const what = e.getAttribute('data-do'), arg = e.getAttribute('data-arg');
    if (!what) return (e.getAttribute('data-input') || e.tagName.toLowerCase()).replace(/\d+/g, 'n').replace(/\.[A-Z]+$/, '.wall');
    if (what === 'open-wall') return what;
    return what + (/^(to-row|length|(add|remove)-(corner|hole))$/.test(what) || !arg ? '' : ' ' + arg);
  }

  window.person = {
    tidy, name, seen, all, find, one, control,
    spot: (label, within) => spot(find(label, within)),
    spotOf: (selector) => spot(one(selector)),
    text: (selector) => tidy(one(selector).textContent),
    rect: (e) => { const r = e.getBoundingClientRect(); return [r.left, r.top, r.right, r.bottom]; },
    frames: async (n) => { while (n-- > 0) await new Promise(requestAnimationFrame); },
    // A point of the room in mm, as the lines have it, in CSS pixels.
    place: (x, y) => {
      const p = new DOMPoint(x, -y).matrixTransform(one('#overlay').getScreenCTM());
      return [p.x, p.y];
    },
  };
})();
