// Starts Core, hands taps over, shows what comes back, keeps it. No number is worked out here.
// No module: that would wait for a first painting before it begins.
(async () => {
const key = 'leafstop-pocket';
const text = id => document.getElementById(id).textContent;
const place = document.getElementById('page'), said = document.getElementById('said'), trouble = document.getElementById('trouble');

/* ---- starting: the files of the runtime lie in this page, packed ---- */
// What is older than 2025 has no fromBase64.
const bytes = Uint8Array.fromBase64 ? packed => Uint8Array.fromBase64(packed) : packed => {
  const all = atob(packed), found = new Uint8Array(all.length);
  for (let i = 0; i < found.length; i++) found[i] = all.charCodeAt(i);
  return found;
};
async function start() {
  const files = JSON.parse(text('leafstop-files'));
  const unpacked = name => new Response(new Blob([bytes(files[name])]).stream().pipeThrough(new DecompressionStream('gzip')), { headers: { 'content-type': 'application/wasm' } });
  // A script made from text has no address; the runtime asks for one only to find files beside it, and those are given below.
  const scripts = {};
  await Promise.all(Object.keys(files).filter(n => n.endsWith('.js')).map(async name => {
    const script = (await unpacked(name).text()).replaceAll('import.meta.url', JSON.stringify('https://leafstop.invalid/_framework/' + name));
    scripts[name] = URL.createObjectURL(new Blob([script], { type: 'text/javascript' }));
  }));
  // Unpacked while the runtime gets ready, not when it asks.
  const ready = Object.fromEntries(Object.keys(files).filter(n => !n.endsWith('.js')).map(name => [name, unpacked(name)]));
  const { dotnet } = await import(scripts['dotnet.js']);
  const { getAssemblyExports, getConfig } = await dotnet.withResourceLoader((type, name, uri) => {
    const file = name in files ? name : uri.split('/').pop();
    return file.endsWith('.js') ? scripts[file] : Promise.resolve(ready[file]);
  }).create();
  return (await getAssemblyExports(getConfig().mainAssemblyName)).Leafstop.Pocket.PocketApi;
}

/* ---- keeping: in the browser's store; where a file may not use it, in the address of this tab ---- */
// What stands in the address is there because the store was full or shut: it is the newer.
let keeps = true;
function kept() {
  let left = '';
  try { left = localStorage.getItem(key) ?? ''; } catch { keeps = false; }
  try { return decodeURIComponent(location.hash.slice(1)) || left; } catch { return left; }
}
function keep(state) {
  if (keeps) try {
    localStorage.setItem(key, state);
    if (location.hash) history.replaceState(null, '', location.pathname + location.search);
    return;
  } catch { keeps = false; }
  try { history.replaceState(null, '', '#' + encodeURIComponent(state)); } catch { /* neither: told under More */ }
}

/* ---- showing ---- */
let core, shown = '', speaking = 0, runs = false;
function show(answer) {
  // One line about the page, then the page.
  const cut = answer.indexOf('\n'), now = JSON.parse(answer.slice(0, cut)), page = document.documentElement;
  page.dataset.theme = now.theme; page.dataset.hand = now.hand; page.dataset.dim = now.dim;
  document.querySelector('meta[name=theme-color]').content = now.theme === 'sun' ? '#ffffff' : '#000000';
  const held = place.contains(document.activeElement) ? document.activeElement.dataset.act : null;
  const leaf = place.querySelector('.slide')?.getBoundingClientRect();
  place.innerHTML = answer.slice(cut + 1);
  place.dataset.screen = now.screen;
  if (held) (place.querySelector(`[data-act="${CSS.escape(held)}"]`) ?? place.querySelector('[data-act]'))?.focus({ preventScroll: true });
  if (now.screen !== shown) place.scrollTo(0, 0);
  const moved = place.querySelector('.slide'), to = moved?.getBoundingClientRect();
  if (leaf && to && now.screen === shown && matchMedia('(prefers-reduced-motion:no-preference)').matches)
    moved.animate([{ transform: `translate(${leaf.left - to.left}px,${leaf.top - to.top}px)` }, { transform: 'none' }], { duration: 160, easing: 'ease-out' });
  shown = now.screen;
  runs = now.runs;
  keep(now.state);
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
  if (!target || !core) return;
  const field = target.dataset.field && document.getElementById(target.dataset.field);
  press(target.dataset.act, field ? field.value : '');
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
  core = await start();
  const left = kept();
  show(core.Open(text('leafstop-data'), left, Date.now(), zone(), innerHeight, keeps));
  globalThis.leafstop = { open: (data, state) => show(core.Open(data, state, Date.now(), zone(), innerHeight, keeps)), press };
  document.documentElement.dataset.ready = Math.round(performance.now());
} catch (fault) {
  trouble.hidden = false;
  trouble.textContent = 'This browser cannot run the page: it needs WebAssembly and unpacking, as browsers have since 2023. The pocket card on paper needs neither. (' + fault.message + ')';
  throw fault;
}
})();
