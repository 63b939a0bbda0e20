// What a page looks like to a reader, asked of the browser's computed styles.
(() => {
  const shown = e => { const r = e.getBoundingClientRect(), s = getComputedStyle(e); return r.width > 0 && r.height > 0 && s.visibility !== 'hidden' && s.display !== 'none'; };
  const numbers = c => { const m = c.match(/[\d.]+/g); return m ? m.map(Number) : [0, 0, 0, 0]; };
  const linear = v => { v /= 255; return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; };
  const luminance = c => 0.2126 * linear(c[0]) + 0.7152 * linear(c[1]) + 0.0722 * linear(c[2]); // WCAG 2.2
  const contrast = (a, b) => { const x = luminance(a), y = luminance(b); return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05); };
  const opaque = c => c && c !== 'none' && c !== 'transparent' && (numbers(c).length < 4 || numbers(c)[3] === 1);
  // The first opaque thing under the middle of a box, other than text.
  const under = (e, r) => {
    const x = (r.left + r.right) / 2, y = (r.top + r.bottom) / 2;
    if (e.closest('svg')) {
      for (const f of document.elementsFromPoint(x, y)) {
        const s = getComputedStyle(f);
        if (f.closest('svg') && (f.tagName === 'path' || f.tagName === 'rect') && opaque(s.fill)) return numbers(s.fill);
        if (!f.closest('svg') && opaque(s.backgroundColor)) return numbers(s.backgroundColor);
      }
    }
    for (let f = e; f; f = f.parentElement) { const c = getComputedStyle(f).backgroundColor; if (opaque(c)) return numbers(c); }
    return [255, 255, 255];
  };
  const faint = [], seen = new Set();
  let worst = 99, smallest = 99;
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let n = walk.nextNode(); n; n = walk.nextNode()) {
    const e = n.parentElement;
    if (!n.textContent.trim() || !shown(e) || e.tagName === 'title' || e.tagName === 'STYLE' || e.classList.contains('skip')) continue;
    const svg = e.closest('svg');
    if (svg) e.scrollIntoView({block: 'center'});
    const s = getComputedStyle(e), r = e.getBoundingClientRect();
    const c = contrast(numbers(svg ? s.fill : s.color), under(e, r));
    const size = parseFloat(s.fontSize) * (svg ? svg.getBoundingClientRect().width / svg.viewBox.baseVal.width : 1);
    smallest = Math.min(smallest, size);
    worst = Math.min(worst, c);
    const what = n.textContent.trim().slice(0, 40) + ' ' + c.toFixed(2);
    if (c < 4.5 && !seen.has(what)) { seen.add(what); faint.push(what); }
  }
  window.scrollTo(0, 0);
  const faults = [];
  const want = (ok, text) => { if (!ok) faults.push(text); };
  want(document.documentElement.lang, 'no lang');
  for (const mark of ['header', 'nav', 'main', 'footer']) want(document.querySelectorAll(mark).length === 1, 'not one ' + mark);
  want(document.querySelectorAll('h1').length === 1, 'not one h1');
  let level = 0;
  for (const h of document.querySelectorAll('h1,h2,h3,h4')) { const l = +h.tagName[1]; want(l <= level + 1, 'heading skips a level: ' + h.textContent); level = l; }
  for (const t of document.querySelectorAll('table')) {
    want(t.caption && t.caption.textContent.trim(), 'table without caption');
    for (const h of t.querySelectorAll('th')) want(h.scope, 'th without scope: ' + h.textContent);
  }
  for (const f of document.querySelectorAll('svg')) want(f.getAttribute('role') === 'img' && f.querySelector('title') && f.querySelector('title').textContent, 'svg without role or title');
  const ids = [...document.querySelectorAll('[id]')].map(e => e.id);
  want(new Set(ids).size === ids.length, 'ids twice: ' + ids.filter((x, i) => ids.indexOf(x) !== i));
  for (const a of document.querySelectorAll('a[href^="#"]')) want(document.getElementById(a.getAttribute('href').slice(1)), 'link to nowhere: ' + a.getAttribute('href'));
  for (const r of document.querySelectorAll('[aria-labelledby]')) want(document.getElementById(r.getAttribute('aria-labelledby')), 'label missing');
  want(!document.querySelector('script'), 'a script');
  const stops = [...document.querySelectorAll('a[href],[tabindex]')];
  want(!stops.some(e => e.tabIndex > 0), 'a tab order of its own');
  // Words of a figure cut off at its edge, or lying on each other.
  for (const f of document.querySelectorAll('svg')) {
    const edge = f.getBoundingClientRect(), boxes = [];
    if (!edge.width) continue;
    for (const t of f.querySelectorAll('text')) {
      if (!t.textContent.trim()) continue; // a mark without a word
      const r = t.getBoundingClientRect(), name = f.querySelector('title').textContent + ': ' + t.textContent;
      want(r.left >= edge.left - 1 && r.right <= edge.right + 1 && r.top >= edge.top - 1 && r.bottom <= edge.bottom + 2, 'cut off in ' + name);
      const h = r.height * 0.3; // a line's box is taller than its letters
      for (const [o, text] of boxes) {
        const x = Math.min(r.right, o.right) - Math.max(r.left, o.left), y = Math.min(r.bottom, o.bottom) - Math.max(r.top, o.top) - h;
        want(x <= 1 || y <= 1, 'on each other in ' + name + ' and ' + text);
      }
      boxes.push([r, t.textContent]);
    }
  }
  // Words cut off at the right of their own box, outside of regions that scroll.
  const wide = [...document.querySelectorAll('main *')].filter(e => shown(e) && !e.closest('svg') && !e.closest('.scroll') && e.getBoundingClientRect().right > innerWidth + 0.5).map(e => e.tagName + ' ' + e.textContent.slice(0, 30));
  return {width: document.documentElement.scrollWidth, inner: innerWidth, worst, smallest, faint, faults, wide, stops: stops.filter(shown).length};
})()
