// Before anything is painted: theme and hand as they were left. Unnamed means night, so a failure is dark, never white.
(function () {
  var left = {};
  try { left = JSON.parse(localStorage.getItem('leafstop-pocket')) || {}; } catch (e) { left = {}; }
  if (!Object.keys(left).length && location.hash) try { left = JSON.parse(decodeURIComponent(location.hash.slice(1))) || {}; } catch (e) { left = left || {}; }
  var page = document.documentElement;
  page.dataset.theme = left.theme === 'sun' ? 'sun' : 'night';
  page.dataset.hand = left.hand === 'left' ? 'left' : 'right';
  page.dataset.dim = left.dim === true;
  document.querySelector('meta[name=theme-color]').content = page.dataset.theme === 'sun' ? '#ffffff' : '#000000';
})();
