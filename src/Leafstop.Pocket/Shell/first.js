// Before anything is painted: theme and hand as they were left. Unnamed means night, so a failure is dark, never white.
(function () {
  var left = {}, page = document.documentElement, own = '';
  // Pages from files share one store, and one telephone may hold several: each keeps to its own name.
  try { own = JSON.parse(document.getElementById('leafstop-data').textContent).page; } catch (e) { own = ''; }
  page.dataset.key = 'leafstop-pocket' + (/^[0-9a-f]{1,64}$/.test(own) ? '-' + own : '');
  try { left = JSON.parse(localStorage.getItem(page.dataset.key)) || {}; } catch (e) { left = {}; }
  if (!Object.keys(left).length && location.hash) try { left = JSON.parse(decodeURIComponent(location.hash.slice(1))) || {}; } catch (e) { left = left || {}; }
  page.dataset.theme = left.theme === 'sun' ? 'sun' : 'night';
  page.dataset.hand = left.hand === 'left' ? 'left' : 'right';
  page.dataset.dim = left.dim === true;
  document.querySelector('meta[name=theme-color]').content = page.dataset.theme === 'sun' ? '#ffffff' : '#000000';
})();
