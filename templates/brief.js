"use strict";
// Everything here is added to a page that is whole without it: no control stands there that a reader
// without scripts could not use.
(() => {
  const page = document.documentElement;
  const make = (tag, set = {}, ...inside) => {
    const made = Object.assign(document.createElement(tag), set);
    made.append(...inside);
    return made;
  };
  const button = (text, act, more = {}) => {
    const made = make("button", { type: "button", textContent: text, ...more });
    made.addEventListener("click", act);
    return made;
  };
  const tools = document.getElementById("tools");

  // What a screen reader is told when something happened.
  const told = make("p", { className: "unseen", id: "told" });
  told.setAttribute("role", "status");
  document.body.append(told);

  // Light and dark: the system's choice until the reader makes one.
  const dark = matchMedia("(prefers-color-scheme: dark)");
  const isDark = () => (page.dataset.theme ? page.dataset.theme === "dark" : dark.matches);
  const ground = button("", () => {
    page.dataset.theme = isDark() ? "light" : "dark";
    name();
  });
  const name = () => (ground.textContent = isDark() ? "Light" : "Dark");
  name();
  dark.addEventListener("change", name);
  tools.append(ground);

  // The contents are open beside the page and closed above it.
  const contents = document.querySelector(".bar details");
  const wide = matchMedia("(min-width: 75rem)");
  const fold = () => (contents.open = wide.matches);
  fold();
  wide.addEventListener("change", fold);
  contents.addEventListener("click", (event) => {
    if (event.target.closest("a") && !wide.matches) contents.open = false;
  });

  // A copy button on every line to say.
  const copied = async (text) => {
    try {
      await navigator.clipboard.writeText(text);
    } catch {
      const area = make("textarea", { value: text });
      document.body.append(area);
      area.select();
      document.execCommand("copy");
      area.remove();
    }
  };
  for (const line of document.querySelectorAll(".say p")) {
    const text = line.textContent;
    const copy = button("Copy", async () => {
      await copied(text);
      copy.textContent = "Copied";
      told.textContent = ""; // the same words again would not be read out
      setTimeout(() => (told.textContent = "Line copied"), 50);
      setTimeout(() => (copy.textContent = "Copy"), 1500);
    });
    copy.className = "copy";
    copy.setAttribute("aria-label", `Copy the line: ${text.slice(0, 60)}`);
    const row = make("div", { className: "saying" });
    line.replaceWith(row);
    row.append(line, copy);
  }

  // What stands behind a number.
  const { facts, queries } = JSON.parse(document.getElementById("behind").textContent);
  const proof = make("dialog", { id: "proof" });
  proof.setAttribute("aria-labelledby", "proof-title");
  document.body.append(proof);
  const explain = (id) => {
    const fact = facts[id];
    const list = make("dl");
    for (const [heading, words] of fact.lines) {
      list.append(make("dt", { textContent: heading }), make("dd", { textContent: words }));
    }
    const inside = [
      make("h2", { id: "proof-title", textContent: id }),
      make("p", { className: "big", textContent: `${fact.shown}: ${fact.said}` }),
      list,
    ];
    if (queries[fact.query]) {
      const query = make("pre", { textContent: queries[fact.query], tabIndex: 0 });
      inside.push(make("details", {}, make("summary", { textContent: "The query" }), query));
    }
    inside.push(button("Close", () => proof.close()));
    proof.replaceChildren(...inside);
    proof.showModal();
  };
  document.addEventListener("click", (event) => {
    const link = event.target.closest("a.num");
    if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    explain(link.hash.slice("#fact-".length));
  });
  proof.addEventListener("click", (event) => event.target === proof && proof.close());

  // The table of numbers: sorted by any column, narrowed by any word.
  const table = document.getElementById("fact-table");
  const rows = [...table.tBodies[0].rows];
  const count = make("span");
  count.setAttribute("role", "status");
  const find = make("input", { type: "search", id: "find" });
  const narrow = () => {
    const words = find.value.toLowerCase().split(/\s+/).filter(Boolean);
    let left = 0;
    for (const row of rows) {
      const text = row.textContent.toLowerCase();
      row.hidden = !words.every((word) => text.includes(word));
      left += !row.hidden;
    }
    count.textContent = `${left} of ${rows.length}`;
  };
  find.addEventListener("input", narrow);
  const label = make("label", { htmlFor: "find", textContent: "Find" });
  const bar = make("div", { className: "find" }, make("span", {}, label, find), count);
  table.parentElement.before(bar);
  narrow();
  const key = (row, at) => row.cells[at].dataset.value ?? row.cells[at].textContent;
  [...table.tHead.rows[0].cells].forEach((head, at) => {
    const sort = button(head.textContent, () => {
      const up = head.getAttribute("aria-sort") !== "ascending";
      for (const other of table.tHead.rows[0].cells) other.removeAttribute("aria-sort");
      head.setAttribute("aria-sort", up ? "ascending" : "descending");
      const order = (a, b) => {
        const [x, y] = [key(a, at), key(b, at)];
        const [p, q] = [parseFloat(x), parseFloat(y)];
        const numeric = at === 1 && !isNaN(p) && !isNaN(q);
        return numeric ? p - q : x.localeCompare(y, "en", { numeric: true });
      };
      rows.sort((a, b) => (up ? order(a, b) : order(b, a)));
      table.tBodies[0].append(...rows);
    });
    head.replaceChildren(sort);
  });

  // Read through: large type that moves at the reader's speed, for a screen behind glass too.
  const script = document.getElementById("script");
  const words = Number(script.dataset.words);
  const state = { rate: 160, size: 3, playing: false, at: 0 };
  const text = make("div", { className: "text", tabIndex: 0 }, script.cloneNode(true));
  text.firstChild.removeAttribute("id");
  text.setAttribute("role", "region");
  text.setAttribute("aria-label", "Script");
  const shown = make("output");
  const play = button("Start", () => move(!state.playing));
  const mirror = button("Mirror", () => {
    const now = reader.classList.toggle("mirrored");
    mirror.setAttribute("aria-pressed", now);
  });
  mirror.setAttribute("aria-pressed", "false");
  const rate = (by) => {
    state.rate = Math.min(300, Math.max(60, state.rate + by));
    shown.textContent = `${state.rate} words a minute`;
  };
  const size = (by) => {
    state.size = Math.min(7, Math.max(1.25, state.size + by));
    text.style.fontSize = `${state.size}rem`;
  };
  const controls = make(
    "div",
    { className: "controls" },
    play,
    button("Slower", () => rate(-10)),
    button("Faster", () => rate(10)),
    shown,
    button("Smaller", () => size(-0.25)),
    button("Larger", () => size(0.25)),
    mirror,
    button("From the top", () => text.scrollTo(0, (state.at = 0))),
    button("Close", () => reader.close()),
    make("span", { className: "unseen", textContent: "Keys: space, up, down, plus, minus, M, Home, Escape" })
  );
  const reader = make("dialog", { id: "reader" }, text, controls);
  reader.setAttribute("aria-label", "Read through");
  document.body.append(reader);
  let last = 0;
  const frame = (now) => {
    if (!state.playing) return;
    const whole = text.firstChild.offsetHeight;
    const pace = whole / ((words / state.rate) * 60); // pixels a second: the script in its own time
    if (Math.abs(text.scrollTop - state.at) > 2) state.at = text.scrollTop; // moved by hand
    state.at += pace * Math.min(0.1, (now - last) / 1000);
    last = now;
    text.scrollTop = state.at;
    if (text.scrollTop + text.clientHeight >= text.scrollHeight - 1) move(false);
    else requestAnimationFrame(frame);
  };
  const move = (on) => {
    state.playing = on;
    play.textContent = on ? "Pause" : "Start";
    state.at = text.scrollTop;
    last = performance.now();
    if (on) requestAnimationFrame(frame);
  };
  const keys = {
    " ": () => move(!state.playing),
    ArrowUp: () => rate(10),
    ArrowDown: () => rate(-10),
    "+": () => size(0.25),
    "=": () => size(0.25),
    "-": () => size(-0.25),
    m: () => mirror.click(),
    Home: () => text.scrollTo(0, (state.at = 0)),
  };
  reader.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return; // the browser's own
    const act = keys[event.key.length === 1 ? event.key.toLowerCase() : event.key];
    if (!act || (event.key === " " && event.target.tagName === "BUTTON")) return;
    event.preventDefault();
    act();
  });
  reader.addEventListener("close", () => move(false));
  rate(0);
  size(0);
  tools.append(
    button("Read through", () => {
      reader.showModal();
      text.scrollTo(0, (state.at = 0));
      text.focus();
    })
  );
})();
