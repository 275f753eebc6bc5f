// Starts Core, hands taps over, shows what comes back, keeps it. No number is worked out here.
// It stands before the packed files, which are nine tenths of the page, and takes each as it is read. No module: that would wait for the end of the page.
(async () => {
// The first script has read whose page this is.
const key = document.documentElement.dataset.key;
const text = id => document.getElementById(id).textContent;
const place = document.getElementById('page'), said = document.getElementById('said'), trouble = document.getElementById('trouble');

/* ---- starting: the files of the runtime follow in this page, packed ---- */
// What is older than 2025 has no fromBase64.
const bytes = Uint8Array.fromBase64 ? packed => Uint8Array.fromBase64(packed) : packed => {
  const all = atob(packed), found = new Uint8Array(all.length);
  for (let i = 0; i < found.length; i++) found[i] = all.charCodeAt(i);
  return found;
};
const asWasm = { headers: { 'content-type': 'application/wasm' } };
const unpacked = part => new Response(new Blob([bytes(part.textContent)]).stream().pipeThrough(new DecompressionStream('gzip')), asWasm);
// A script made from text has no address; the runtime asks for one only to find files beside it, and those are given below.
const scriptOf = async part => {
  const script = (await unpacked(part).text()).replaceAll('import.meta.url', JSON.stringify('https://leafstop.invalid/_framework/' + part.dataset.file));
  return URL.createObjectURL(new Blob([script], { type: 'text/javascript' }));
};
// By name what each file has become, or is becoming: the address of a script, the compiled runtime, the bytes of an assembly.
const files = {};
addEventListener('leafstop-part', ({ detail: part }) => {
  const name = part.dataset.file;
  files[name] = name.endsWith('.js') ? scriptOf(part) : name === 'dotnet.native.wasm' ? WebAssembly.compileStreaming(unpacked(part)) : unpacked(part);
});
const read = new Promise(done => document.addEventListener('DOMContentLoaded', done));
async function start() {
  await read;
  // The runtime compiles when it is asked to start; here that has begun long before, while the page was still read.
  WebAssembly.compileStreaming = () => files['dotnet.native.wasm'];
  const scripts = Object.fromEntries(await Promise.all(Object.keys(files).filter(n => n.endsWith('.js')).map(async name => [name, await files[name]])));
  const { dotnet } = await import(scripts['dotnet.js']);
  const { getAssemblyExports, getConfig } = await dotnet.withResourceLoader((type, name, uri) => {
    const file = name in files ? name : uri.split('/').pop();
    return scripts[file] ?? (type === 'dotnetwasm' ? Promise.resolve(new Response('', asWasm)) : Promise.resolve(files[file]));
  }).create();
  return (await getAssemblyExports(getConfig().mainAssemblyName)).Leafstop.Pocket.PocketApi;
}

/* ---- keeping: in the browser's store; where a file may not use it, in the address of this tab ---- */
// What stands in the address is there because the store was full or shut: it is the newer then, and nothing (a mark, a link of somebody else's) where the store works.
let keeps = true;
function kept() {
  try {
    localStorage.setItem(key + '-try', location.hash);
    localStorage.removeItem(key + '-try');
    return localStorage.getItem(key) ?? '';
  } catch { keeps = false; }
  let left = '';
  try { left = localStorage.getItem(key) ?? ''; } catch { /* shut */ }
  try { return JSON.parse(decodeURIComponent(location.hash.slice(1))) ? decodeURIComponent(location.hash.slice(1)) : left; } catch { return left; }
}
function keep(state) {
  if (keeps) try {
    localStorage.setItem(key, state);
    if (location.hash) history.replaceState(null, '', location.pathname + location.search);
    return;
  } catch { keeps = false; }
  try { history.replaceState(null, '', '#' + encodeURIComponent(state)); } catch { /* neither: told under More */ }
}

/* ---- an answer from the first moment, for a telephone takes seconds to start the runtime: the one that stood last; in a page that was never used the one that the program worked out when it wrote the page ---- */
// The last one is of this file, this state and this window only; a screen with a clock on it would be wrong by now.
const lastKey = key + '-last', waiting = [];
function lastMark() {
  let mark = 0x811c9dc5;
  for (const letter of text('leafstop-data')) mark = Math.imul(mark ^ letter.codePointAt(0), 0x01000193) >>> 0;
  return mark + ' ' + innerWidth + ' ' + innerHeight;
}
function keepLast(answer, state) {
  if (keeps) try { localStorage.setItem(lastKey, JSON.stringify({ mark: lastMark(), state, answer })); } catch { /* then the next opening waits for Core */ }
}
function lastAnswer() {
  const left = kept();
  // What fits depends on the height of the window.
  if (!left) return JSON.parse(text('leafstop-opening')).findLast(opening => innerHeight >= opening.fromHeight)?.answer;
  const last = JSON.parse(localStorage.getItem(lastKey));
  return last.mark === lastMark() && last.state === left ? last.answer : '';
}
async function showLast() {
  try {
    // Without its type the answer would stay unseen and be laid out twice, the first time with a type that the browser has to look for: a tenth of a second.
    await Promise.all(['', 'italic '].map(style => document.fonts.load(style + '20px "Leafstop Text"')));
    const answer = lastAnswer();
    if (!answer || core) return;
    paint(answer);
    place.setAttribute('aria-busy', 'true');
    document.documentElement.dataset.last = Math.round(performance.now());
  } catch { /* nothing kept, or nothing that can be read */ }
}

/* ---- showing ---- */
let core, shown = '', speaking = 0, runs = false, isOver = false, turned = -Infinity, last = null;
function paint(answer) {
  // One line about the page, then the page.
  const cut = answer.indexOf('\n'), now = JSON.parse(answer.slice(0, cut)), page = document.documentElement;
  page.dataset.theme = now.theme; page.dataset.hand = now.hand; page.dataset.dim = now.dim;
  document.querySelector('meta[name=theme-color]').content = now.theme === 'sun' ? '#ffffff' : '#000000';
  const isFirst = !shown, held = place.contains(document.activeElement) ? document.activeElement.dataset.act : null;
  // Nothing to compare with or to scroll back at first: asking would lay the page out once more.
  const leaf = isFirst ? null : place.querySelector('.slide')?.getBoundingClientRect();
  place.innerHTML = answer.slice(cut + 1);
  place.dataset.screen = now.screen;
  const over = place.querySelector('.over') !== null;
  if (!isFirst && now.screen === shown && over !== isOver) turned = performance.now();
  isOver = over;
  if (held) (place.querySelector(`[data-act="${CSS.escape(held)}"]`) ?? place.querySelector('[data-act]'))?.focus({ preventScroll: true });
  if (!isFirst && now.screen !== shown) place.scrollTo(0, 0);
  const moved = place.querySelector('.slide'), to = leaf && moved?.getBoundingClientRect();
  if (leaf && to && now.screen === shown && matchMedia('(prefers-reduced-motion:no-preference)').matches)
    moved.animate([{ transform: `translate(${leaf.left - to.left}px,${leaf.top - to.top}px)` }, { transform: 'none' }], { duration: 160, easing: 'ease-out' });
  shown = now.screen;
  return now;
}
function show(answer) {
  const now = paint(answer);
  runs = now.runs;
  keep(now.state);
  keepLast(now.runs ? '' : answer, now.state);
  // Spoken once, after a rest.
  clearTimeout(speaking);
  speaking = setTimeout(() => { if (said.textContent !== now.say) said.textContent = now.say; }, 400);
  return now;
}
const zone = () => -new Date().getTimezoneOffset();
function press(act, value = '') {
  const now = show(core.Press(act, value, Date.now(), zone(), innerHeight, keeps));
  if (now.vibrate && act) navigator.vibrate?.(15);
}
addEventListener('click', event => {
  const target = event.target.closest('[data-act]');
  if (!target) return;
  // Past clean other things lie where the steps lay. A finger that goes on tapping there means the step, not what came under it: such taps do nothing, as long as they follow within a second.
  const repeats = event.detail > 0 && last !== null && last.act !== target.dataset.act && performance.now() - turned < 1000 && Math.hypot(event.clientX - last.x, event.clientY - last.y) < 40;
  if (repeats) return turned = performance.now();
  last = { act: target.dataset.act, x: event.clientX, y: event.clientY };
  const field = target.dataset.field && document.getElementById(target.dataset.field), value = field ? field.value : '';
  if (core) return press(target.dataset.act, value);
  // A tap on the last answer waits for Core, and shows that it does.
  waiting.push([target.dataset.act, value]);
  target.dataset.waits = '';
  said.textContent = 'One moment.';
});
// The page went to sleep and wakes, or the screen was locked: times have moved on, nothing else has.
const wake = () => { if (core && !document.hidden && !(document.activeElement instanceof HTMLTextAreaElement)) press(''); };
addEventListener('pageshow', event => { if (event.persisted) wake(); });
document.addEventListener('visibilitychange', wake);
document.addEventListener('resume', wake);
addEventListener('resize', wake);
// A clock is on the page.
setInterval(() => { if (runs) wake(); }, 15000);

try {
  showLast();
  const starting = await start(), left = kept();
  show(starting.Open(text('leafstop-data'), left, Date.now(), zone(), innerHeight, keeps));
  core = starting;
  place.removeAttribute('aria-busy');
  for (const [act, value] of waiting) press(act, value);
  globalThis.leafstop = { open: (data, state) => show(core.Open(data, state, Date.now(), zone(), innerHeight, keeps)), press };
  document.documentElement.dataset.ready = Math.round(performance.now());
} catch (fault) {
  // No button of a last answer does anything now.
  place.replaceChildren();
  trouble.hidden = false;
  trouble.textContent = 'This browser cannot run the page: it needs WebAssembly and unpacking, as browsers have since 2023. The pocket card on paper needs neither. (' + fault.message + ')';
  throw fault;
}
})();
