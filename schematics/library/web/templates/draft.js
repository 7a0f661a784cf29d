"use strict";
// Asks for the next save, puts what was drawn in the place of what is shown, and asks again.
(() => {
  const told = document.getElementById("told");
  const later = (seconds) => new Promise((done) => setTimeout(done, 1000 * seconds));

  async function next() {
    const shown = document.getElementById("draft");
    const asked = new URLSearchParams({ size: shown.dataset.size, seen: shown.dataset.number });
    const answer = await fetch(`?${asked}`);
    if (answer.status === 204) return;
    if (!answer.ok) throw new Error(String(answer.status));
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    document.title = page.title;
    shown.replaceWith(document.adoptNode(page.getElementById("draft")));
    const problems = document.querySelectorAll("#draft .stop li").length;
    told.textContent = problems ? `Saved, with ${problems} to mend.` : "Saved and drawn anew.";
  }

  async function follow() {
    for (;;) {
      try {
        await next();
      } catch {
        told.textContent = "Nobody answers; is it still running?";
        await later(2);
      }
    }
  }

  follow();
})();
