/* Saves clicks and keys; everything works without it. */
"use strict";
(function () {
  const store = "namekeeper-keys";
  const read = () => { try { return localStorage.getItem(store) !== "off"; } catch { return true; } };
  let keys = read();
  const typing = (el) => el && (el.isContentEditable || /^(INPUT|TEXTAREA|SELECT)$/.test(el.tagName) && !/^(checkbox|radio|button|submit)$/.test(el.type));
  const told = () => document.documentElement.classList.toggle("keys-off", !keys);
  told();

  document.addEventListener("keydown", (event) => {
    if (!keys || event.ctrlKey || event.metaKey || event.altKey || event.isComposing || typing(event.target)) return;
    if (event.key === "/") {
      const field = document.querySelector("[data-search]");
      if (field) { event.preventDefault(); field.focus(); field.select(); }
      return;
    }
    const wanted = document.querySelector('[data-key="' + CSS.escape(event.key.toLowerCase()) + '"]');
    if (!wanted) return;
    event.preventDefault();
    if (wanted.tagName === "FORM") wanted.requestSubmit(); else wanted.click();
  });

  for (const button of document.querySelectorAll("[data-toggle-keys]")) {
    const name = () => { button.textContent = keys ? "Switch keys off" : "Switch keys on"; };
    button.hidden = false;
    name();
    button.addEventListener("click", () => {
      keys = !keys;
      try { localStorage.setItem(store, keys ? "on" : "off"); } catch { /* kept for this page only */ }
      told();
      name();
    });
  }

  /* A form that cannot reach the server stays on the screen with all that was typed. */
  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (form.dataset.sent || form.enctype === "multipart/form-data") return;
    event.preventDefault();
    const button = event.submitter;
    fetch("/works", { cache: "no-store" }).then(() => {
      form.dataset.sent = "yes";
      form.requestSubmit(button);
      delete form.dataset.sent;
    }).catch(gone);
  });
  function gone() {
    if (document.querySelector("[data-gone]")) return;
    const line = document.createElement("section");
    line.className = "said bad";
    line.dataset.gone = "yes";
    line.setAttribute("role", "alert");
    line.innerHTML = "<div><p></p></div>";
    line.querySelector("p").textContent =
      "Namekeeper is closed: nothing was sent. What you typed is still here; copy it, start Namekeeper again and open its new link.";
    document.getElementById("m").before(line);
  }

  /* What goes on, told in its line. Buttons stay where they are, so that a click or the focus is not lost. */
  const works = document.getElementById("works");
  const lines = (where) => [...where.querySelectorAll("[data-job]")];
  const keysOf = (where) => lines(where).map((line) => line.dataset.job).join(" ");
  function tell(text) {
    const told = new DOMParser().parseFromString(text, "text/html").body;
    if (keysOf(told) === keysOf(works)) {
      lines(told).forEach((line, n) => lines(works)[n].querySelector(".far").replaceWith(line.querySelector(".far")));
    } else {
      works.replaceChildren(...told.children);
    }
  }
  function look(missed) {
    fetch("/works", { cache: "no-store" }).then((answer) => answer.text()).then((text) => {
      tell(text);
      const going = lines(works), wanted = works.dataset.reload;
      if (wanted && !going.some((line) => wanted === "any" || wanted === line.dataset.job)) location.reload();
      else if (going.length) setTimeout(look, 700, 0);
    }).catch(() => { if (missed) gone(); else setTimeout(look, 1500, 1); });
  }
  if (works && (works.dataset.busy || (works.dataset.reload && works.dataset.reload !== "any"))) setTimeout(look, 700, 0);
})();
