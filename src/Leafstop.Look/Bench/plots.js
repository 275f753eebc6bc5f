// The points of a plot: the tab key comes to one of them, the arrow keys go from there to its neighbours.
// Without the signs that XML keeps for itself: the report carries this inside a page that is well-formed XML.
document.addEventListener("keydown", function (event) {
  var point = event.target.closest(".read");
  if (!point || event.ctrlKey || event.altKey || event.metaKey) return;
  var all = Array.from(point.closest(".plot").querySelectorAll(".read")), at = all.indexOf(point);
  var to = { ArrowRight: at + 1, ArrowDown: at + 1, ArrowLeft: at - 1, ArrowUp: at - 1, Home: 0, End: all.length - 1 }[event.key];
  if (to === undefined) return;
  event.preventDefault();
  if (!all[to]) return;
  point.setAttribute("tabindex", "-1");
  all[to].setAttribute("tabindex", "0");
  all[to].focus();
});
