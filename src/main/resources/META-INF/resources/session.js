"use strict";
// Warns before the sign-in runs out, and keeps what is typed while the person changes.
// Without this file the server still does both: the next form sent asks for the sign-in and is kept.
(() => {
  const box = document.getElementById("leaving");
  if (!box) return;
  const words = box.querySelector("p");
  const stay = box.querySelector("button");
  const again = box.querySelector("a");
  const csrf = box.dataset.csrf;
  const warning = Number(box.dataset.warning);
  const TYPING_COUNTS_EVERY = 60000;
  let endsAt = Date.now() + Number(box.dataset.seconds) * 1000;
  let saidAlive = Date.now();
  let asking = false;

  const left = () => Math.round((endsAt - Date.now()) / 1000);

  async function ask(method) {
    const headers = method === "POST" ? { "X-CSRF": csrf } : { "X-Background": "true" };
    const answer = await fetch("/session", { method, headers, credentials: "same-origin" });
    const seconds = answer.ok ? (await answer.json()).secondsLeft : 0;
    endsAt = Date.now() + seconds * 1000;
  }

  function show() {
    const over = left() <= 0;
    box.hidden = left() > warning;
    stay.hidden = over;
    again.hidden = !over;
    if (box.hidden) return;
    const text = over
      ? "You are signed out because nobody touched this screen. What is typed here is kept when you send it."
      : "Nobody touched this screen for a while. It signs out in less than " +
        Math.max(1, Math.ceil(left() / 60)) + (left() > 60 ? " minutes." : " minute.");
    if (words.textContent !== text) words.textContent = text;
  }

  async function look() {
    if (asking || left() > warning) return show();
    asking = true;
    try {
      // Another window may have been used meanwhile.
      if (left() > 0 || stay.hidden === false) await ask("GET");
    } catch (lost) {
      // Without a connection there is nothing to ask; what is typed stays where it is.
    }
    asking = false;
    show();
  }

  stay.addEventListener("click", async () => {
    await ask("POST");
    show();
  });

  // Somebody who types is there, even if nothing is sent for a long while.
  for (const kind of ["keydown", "pointerdown"]) {
    document.addEventListener(kind, () => {
      if (left() > 0 && Date.now() - saidAlive > TYPING_COUNTS_EVERY) {
        saidAlive = Date.now();
        ask("POST").then(show, () => {});
      }
    }, { passive: true });
  }
  setInterval(look, 5000);
  document.addEventListener("visibilitychange", look);

  // Change of person: what is typed goes along and comes back for the next one.
  const typed = (field) =>
    field.type === "checkbox" || field.type === "radio" ? field.checked !== field.defaultChecked
      : field.tagName === "SELECT" ? [...field.options].some((o) => o.selected !== o.defaultSelected)
      : "defaultValue" in field && field.value !== field.defaultValue;

  function openForm() {
    return [...document.querySelectorAll("main form[method=post]")]
      .find((form) => [...form.elements].some((field) => field.name && typed(field)));
  }

  for (const link of document.querySelectorAll('a[href^="/change-person"]')) {
    link.addEventListener("click", (event) => {
      const form = openForm();
      if (!form) return;
      event.preventDefault();
      const carrier = document.createElement("form");
      carrier.method = "post";
      carrier.action = "/change-person/keep";
      carrier.hidden = true;
      const put = (name, value) => {
        const input = document.createElement("input");
        input.type = "hidden";
        input.name = name;
        input.value = value;
        carrier.append(input);
      };
      for (const [name, value] of new FormData(form)) {
        if (typeof value === "string" && name !== "csrf") put(name, value);
      }
      put("csrf", csrf);
      put("_page", location.pathname + location.search);
      put("_action", new URL(form.action).pathname);
      document.body.append(carrier);
      carrier.submit();
    });
  }

  async function fillAgain() {
    const answer = await fetch("/kept/take", { method: "POST", headers: { "X-CSRF": csrf }, credentials: "same-origin" });
    if (!answer.ok) return;
    const kept = await answer.json();
    const form = [...document.querySelectorAll("main form[method=post]")]
      .find((one) => new URL(one.action).pathname === kept.action);
    if (!form) return;
    const used = new Map();
    for (const box of form.querySelectorAll("input[type=checkbox]")) box.checked = false;
    for (const { name, value } of kept.fields) {
      const fields = [...form.elements].filter((field) => field.name === name && field.type !== "hidden");
      const ticks = fields.filter((field) => field.type === "checkbox" || field.type === "radio");
      if (ticks.length > 0) {
        ticks.filter((field) => field.value === value).forEach((field) => { field.checked = true; });
      } else {
        const turn = used.get(name) ?? 0;
        used.set(name, turn + 1);
        if (fields[turn]) fields[turn].value = value;
      }
    }
    history.replaceState(null, "", location.pathname + location.search);
    document.getElementById("filled").textContent = "What was typed before the person changed is back.";
  }

  if (location.hash === "#kept") fillAgain().catch(() => {});
})();
