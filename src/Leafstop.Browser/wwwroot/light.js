// First thing on the page: names the light before anything is painted. Unnamed means night, so a failure is dark, never white.
(function () {
  var chosen = null;
  try { chosen = localStorage.getItem("leafstop.light"); } catch (e) { /* A browser that keeps nothing goes by the clock. */ }
  var hour = new Date().getHours();
  var light = /^(paper|sun|night)$/.test(chosen || "") ? chosen : hour < 7 || hour >= 20 ? "night" : "paper";
  document.documentElement.dataset.theme = light;
  document.querySelector("meta[name=theme-color]").content = light === "night" ? "#000000" : light === "sun" ? "#ffffff" : "#f1f2ee";
})();
