// What a browser gives to script only: the light, keys, what is kept in this browser, and pictures that are drawn pixel for pixel.
(function () {
  "use strict";
  var listener = null, shown = [], followed = null, dropTo = null;
  var sent = document.querySelector(".sent"), sentAt = location.href, place = -1;

  // As long as its program is still being loaded, the page that the host sent answers by itself: the light changes at once, and a link is where the program begins.
  function stops() { return document.querySelectorAll("#app a[href], #app button"); }

  function markLight() {
    sent.querySelectorAll(".themes button").forEach(function (button) {
      button.setAttribute("aria-pressed", button.textContent === document.documentElement.dataset.theme ? "true" : "false");
    });
  }

  function takeClick(event) {
    var button = event.target.closest(".themes button"), link = event.target.closest("a[href]");
    if (button) {
      window.leafstop.setLight(button.textContent);
      markLight();
    } else if (link && !link.hash && event.button === 0 && !event.ctrlKey && !event.metaKey && !event.shiftKey && !event.altKey) {
      event.preventDefault();
      history.pushState(null, "", link.href);
      sent.querySelectorAll("nav a").forEach(function (other) {
        if (other.href === link.href) other.setAttribute("aria-current", "page"); else other.removeAttribute("aria-current");
      });
      sent.querySelector("main").innerHTML = '<p class="topline"><b>Leafstop</b><span role="status">The page is being opened.</span></p>';
    }
  }

  // Every file of the page is asked for under the mark of this build, so that the browser keeps it for good and asks for it once. The mark stands for what is in them, so nothing else has to check that.
  var mark = "?" + document.currentScript.src.split("?")[1];
  document.addEventListener("DOMContentLoaded", function () {
    Blazor.start({
      loadBootResource: function (type, name, address) { return address + mark; },
      configureRuntime: function (runtime) { runtime.withConfig({ disableNoCacheFetch: true, disableIntegrityCheck: true }); }
    });
  });

  if (sent) {
    markLight();
    sent.addEventListener("click", takeClick);
    sent.addEventListener("focusin", function (event) { place = Array.prototype.indexOf.call(stops(), event.target); });
  }

  // A picture's pixels are the screen's pixels: as wide as it has pixels, and beginning on a whole one.
  function lay(canvas) {
    var ratio = devicePixelRatio;
    canvas.style.width = canvas.width / ratio + "px";
    canvas.style.height = canvas.height / ratio + "px";
    canvas.style.left = canvas.style.top = "0px";
    var box = canvas.getBoundingClientRect();
    var x = (box.left + scrollX) * ratio, y = (box.top + scrollY) * ratio;
    canvas.style.left = (Math.round(x) - x) / ratio + "px";
    canvas.style.top = (Math.round(y) - y) / ratio + "px";
  }

  function placeAll() {
    shown = shown.filter(function (canvas) { return canvas.isConnected; });
    shown.forEach(lay);
  }

  addEventListener("resize", placeAll);

  document.addEventListener("keydown", function (event) {
    if (!listener || event.ctrlKey || event.altKey || event.metaKey || event.repeat) return;
    if (/^(INPUT|SELECT|TEXTAREA)$/.test(event.target.tagName)) return;
    // Enter and space press what has the focus.
    if (!/^(Arrow(Left|Right|Up|Down)|Backspace|Escape|[ynuYNU])$/.test(event.key)) return;
    event.preventDefault();
    listener.invokeMethodAsync("Pressed", event.key);
  });

  // What is typed into a blank reaches the program as what stands in it then. Telling it each key as well would only make the answer later; it wants those two that close the blank.
  addEventListener("keydown", function (event) {
    if (event.target.matches && event.target.matches("input.hand") && event.key !== "Enter" && event.key !== "Escape") event.stopPropagation();
  }, true);

  // A browser tells the name of a folder that is dropped and not its place; text that is dropped may be a path.
  document.addEventListener("dragover", function (event) { if (dropTo) event.preventDefault(); });
  document.addEventListener("drop", function (event) {
    if (!dropTo) return;
    event.preventDefault();
    var item = event.dataTransfer.items[0], entry = item && item.kind === "file" && item.webkitGetAsEntry ? item.webkitGetAsEntry() : null;
    var text = event.dataTransfer.getData("text/uri-list") || event.dataTransfer.getData("text/plain");
    dropTo.invokeMethodAsync("Dropped", text || (entry ? entry.name : ""), !!entry && entry.isFile && !text);
  });

  window.leafstop = {
    light: function () { return document.documentElement.dataset.theme; },
    setLight: function (light) {
      document.documentElement.dataset.theme = light;
      document.querySelector("meta[name=theme-color]").content = light === "night" ? "#000000" : light === "sun" ? "#ffffff" : "#f1f2ee";
      window.leafstop.keep("light", light);
    },
    // Cookies, because a browser keeps them by machine and all else by port, and the port is another one each time.
    kept: function (name) {
      var found = new RegExp("(?:^|; )leafstop\\." + name + "=([^;]*)").exec(document.cookie);
      return found ? decodeURIComponent(found[1]) : null;
    },
    keep: function (name, value) { document.cookie = "leafstop." + name + "=" + encodeURIComponent(value) + "; path=/; max-age=31536000; samesite=strict"; },
    // A window that holds nothing, because it may not or is full, still works: only a reload forgets.
    held: function (name) { try { return sessionStorage.getItem("leafstop." + name); } catch { return null; } },
    hold: function (name, text) {
      try { if (text === null) sessionStorage.removeItem("leafstop." + name); else sessionStorage.setItem("leafstop." + name, text); } catch { }
    },
    sentAlong: function () {
      var data = document.getElementById("sent-along");
      return data && location.href === sentAt ? data.textContent : null;
    },
    // The program has drawn the page: whoever was at a link or button by keys is there again.
    opened: function () {
      if (sent && place >= 0) setTimeout(function () { if (stops()[place]) stops()[place].focus(); });
      sent = null;
      return location.href;
    },
    ask: async function (method, address, json) {
      try {
        var answer = await fetch(address, json === null ? { method: method } : { method: method, body: json, headers: { "Content-Type": "application/json" } });
        return answer.status + " " + (answer.headers.get("Content-Type") || "") + "\n" + await answer.text();
      } catch {
        return "0 \n";
      }
    },
    ratio: function () { return devicePixelRatio; },
    width: function () { return innerWidth; },
    // Names the screen, so that another one is measured anew.
    screen: function () { return Math.round(screen.width * devicePixelRatio) + "x" + Math.round(screen.height * devicePixelRatio); },
    now: function () {
      var two = function (n) { return (n < 10 ? "0" : "") + n; }, at = new Date();
      return at.getFullYear() + "-" + two(at.getMonth() + 1) + "-" + two(at.getDate()) + " " + two(at.getHours()) + ":" + two(at.getMinutes());
    },
    textOf: async function (field) {
      var text = field.files.length > 0 ? await field.files[0].slice(0, 4 << 20).text() : "";
      field.value = "";
      return text;
    },
    offsetAt: function (milliseconds) { return -new Date(milliseconds).getTimezoneOffset(); },
    zone: function () { return Intl.DateTimeFormat().resolvedOptions().timeZone || "UTC"; },
    address: function (to) { if (location.pathname.split("/").pop() === to.split("?")[0]) history.replaceState(history.state, "", to); },
    listen: function (to) { listener = to; },
    dropTo: function (to) { dropTo = to; },
    // The browser asks again by itself when the line breaks, and tells which state it had last; refused, it asks no more.
    follow: function (address, to) {
      if (followed) followed.close();
      followed = address ? new EventSource(address) : null;
      if (!followed) return;
      followed.addEventListener("state", function (event) { to.invokeMethodAsync("Told", event.data); });
      followed.onerror = function () { to.invokeMethodAsync("Lost", this.readyState === EventSource.CLOSED); };
    },
    // What had the focus is gone from the page: whoever works by keys or by voice is at its headline, not nowhere.
    headline: function () {
      var title = document.querySelector("main h1[tabindex]");
      if (title && (!document.activeElement || document.activeElement === document.body)) title.focus({ preventScroll: true });
    },
    focus: function (element) { if (element) { element.focus({ preventScroll: true }); if (element.select) element.select(); } },
    // All at once, so that one is not seen before the other.
    show: async function (canvases, addresses, isMirrored) {
      var pictures = await Promise.all(addresses.map(async function (address) {
        var answer = await fetch(address, { cache: "no-store" });
        if (!answer.ok) throw new Error("picture " + answer.status);
        return createImageBitmap(await answer.blob(), { colorSpaceConversion: "none" });
      }));
      pictures.forEach(function (picture, i) {
        var canvas = canvases[i];
        canvas.width = picture.width;
        canvas.height = picture.height;
        var pen = canvas.getContext("2d", { alpha: false });
        if (isMirrored) pen.setTransform(-1, 0, 0, 1, picture.width, 0);
        pen.imageSmoothingEnabled = false;
        pen.drawImage(picture, 0, 0);
        picture.close();
      });
      shown = canvases.slice();
      placeAll();
      await document.fonts.ready;
      placeAll();
    }
  };
})();
