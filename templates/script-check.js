// Through the findings with j and k (or n and p); the words that a note is of are outlined.
"use strict";
(() => {
  const notes = [...document.querySelectorAll(".note")];
  const words = (note) => document.querySelectorAll(`[data-mark="${note.id.slice(1)}"]`);
  const light = (note, on) => words(note).forEach((word) => word.classList.toggle("lit", on));
  for (const note of notes) {
    note.addEventListener("focus", () => light(note, true));
    note.addEventListener("blur", () => light(note, false));
  }
  let last = -1;
  const go = (step) => {
    const here = notes.indexOf(document.activeElement);
    const from = here >= 0 ? here : last;
    const at = Math.min(Math.max(from + step, 0), notes.length - 1);
    if (notes[at]) {
      last = at;
      notes[at].focus({ preventScroll: true });
      notes[at].scrollIntoView({ block: "center" });
    }
  };
  document.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === "j" || event.key === "n") go(1);
    if (event.key === "k" || event.key === "p") go(-1);
  });
})();
