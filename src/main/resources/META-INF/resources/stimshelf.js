"use strict";
// Everything works without this file; it only saves steps.
(() => {
  const desk = document.querySelector("form.scan input[name=code]");
  const TYPED = 'input:not([type="hidden"], [type="checkbox"], [type="radio"], [type="submit"], [type="button"]), select, textarea';
  // A scanner types a character every few milliseconds and ends with Enter; nobody's fingers do.
  const SCAN_GAP = 45;
  const SCAN_LENGTH = 5;
  const SEPARATOR = "\u001d";

  const isTyped = (element) => element instanceof Element && element.matches(TYPED);

  /** Whether somebody who scans into the field means it: the field says so, or its label does. */
  const wanted = (field) =>
    field === desk || (isTyped(field) && (field.hasAttribute("data-scan")
      || [...(field.labels ?? [])].some((label) => /\b(scan|tag|lot|serial|code|number)\b/i.test(label.textContent))));

  /** A page that waits for scans of its own gets them, wherever the cursor is. */
  const target = () =>
    [...document.querySelectorAll("main :is([data-scan], input[autofocus])")].find(wanted) ?? desk;

  function say(words) {
    let box = document.getElementById("said");
    if (!box) {
      box = document.createElement("p");
      box.id = "said";
      box.className = "caution";
      box.setAttribute("role", "alert");
      document.body.prepend(box);
    }
    box.textContent = words;
  }

  // The scan field waits, unless the page asks for something else first.
  function begin() {
    const first = document.querySelector('main [aria-invalid="true"]') ?? document.querySelector("[autofocus]");
    if (first) {
      first.focus();
      return first.select?.();
    }
    if (location.hash || matchMedia("(pointer: coarse)").matches) return;
    target()?.focus({ preventScroll: true });
  }

  const untouched = () =>
    [...document.querySelectorAll("main form[method=post] :is(input, textarea)")]
      .every((field) => field.type === "hidden" || (field.value === field.defaultValue && field.checked === field.defaultChecked));

  function take(code) {
    const field = target();
    if (!field) return;
    field.value = code;
    field.focus();
    if (field !== desk || untouched()) {
      field.form.requestSubmit(field.form.querySelector('button:not([type="button"])'));
    } else {
      field.select();
      say("A code was scanned. Press Enter to look it up; what is typed below is not saved yet.");
    }
  }

  let burst = "";
  let last = 0;
  let before = "";

  // A scan never lands in a field that did not ask for it, and its Enter presses no button.
  document.addEventListener("keydown", (event) => {
    const at = event.target;
    const gap = event.timeStamp - last;
    const own = wanted(at);
    const separator = event.ctrlKey && event.code === "BracketRight";
    if (separator) {
      event.preventDefault();
      if (own) at.setRangeText(SEPARATOR, at.selectionStart, at.selectionEnd, "end");
    }
    if (own || !desk || event.repeat || at.form?.querySelector("[type=password]")) return;
    if (event.key === "Enter") {
      if (burst.length >= SCAN_LENGTH && gap <= SCAN_GAP) {
        event.preventDefault();
        if (isTyped(at)) at.value = before;
        take(burst);
      }
      burst = "";
      return;
    }
    const character = separator ? SEPARATOR : event.key;
    if (character.length !== 1 || (!separator && (event.ctrlKey || event.altKey || event.metaKey))) return;
    if (gap > SCAN_GAP) {
      burst = "";
      before = isTyped(at) ? at.value : "";
    }
    last = event.timeStamp;
    burst += character;
    // A blank within a scan must not press the button that has the focus.
    if (burst.length > 1 && character === " " && !isTyped(at)) event.preventDefault();
  }, true);

  // A form leaves only when somebody is there to take it, and leaves once.
  const leaving = new WeakSet();
  document.addEventListener("submit", async (event) => {
    const form = event.target;
    if (event.defaultPrevented || form.method !== "post" || form.hasAttribute("hx-post")) return;
    if (leaving.has(form)) {
      if (!form.dataset.sent) event.preventDefault();
      else delete form.dataset.sent;
      return;
    }
    event.preventDefault();
    leaving.add(form);
    const button = event.submitter;
    const there = navigator.onLine
      && await fetch("/stimshelf.svg", { method: "HEAD", cache: "no-store" }).then((answer) => answer.ok, () => false);
    if (there) {
      form.dataset.sent = "now";
      form.requestSubmit(button);
      setTimeout(() => leaving.delete(form), 3000);
    } else {
      leaving.delete(form);
      say("No connection. Nothing was sent; what is typed stays here. Try again in a moment.");
    }
  });

  // Lists that go stale fetch themselves again, unless somebody is at work in them.
  setInterval(() => {
    for (const list of document.querySelectorAll("[data-refresh]")) {
      if (!document.hidden && !list.contains(document.activeElement) && !list.querySelector("details[open]")) {
        list.dispatchEvent(new CustomEvent("refresh"));
      }
    }
  }, 60000);
  document.addEventListener("htmx:configRequest", (event) => {
    if (event.target.hasAttribute("data-refresh")) event.detail.headers["X-Background"] = "true";
  });

  begin();
})();
