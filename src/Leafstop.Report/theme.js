(function () {
  var group = document.querySelector(".themes");
  function mark() {
    group.querySelectorAll("button").forEach(function (b) {
      b.setAttribute("aria-pressed", String(b.dataset.setTheme === document.documentElement.dataset.theme));
    });
  }
  group.addEventListener("click", function (e) {
    var b = e.target.closest("button");
    if (!b) return;
    document.documentElement.dataset.theme = b.dataset.setTheme;
    mark();
  });
  group.hidden = false;
  mark();
})();
