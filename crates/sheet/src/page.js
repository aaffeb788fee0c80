"use strict";
// The sheet in a browser: ticks that exclude each other, the file of answers, and the way back from a saved one.
// Nothing is sent and nothing is kept. Without this script the page is still a sheet to read and print.
(() => {
  const sheet = document.body.dataset;
  const FORM = "underlath household answers";
  const questions = [...document.querySelectorAll("fieldset")];
  const said = document.getElementById("said");
  const count = document.getElementById("count");
  const remark = document.querySelector("textarea[name=remark]");
  const who = document.querySelector("input[name=who]");
  let saved = true;

  const fill = (text, places) => text.replace(/\{ \$([a-z]+) \}/g, (_, name) => places[name] ?? "");
  const ticks = (q) => [...q.querySelectorAll("input[type=radio],input[type=checkbox]")];
  const typed = (q) => q.querySelector(".number input");
  const words = (q) => q.querySelector("textarea");

  // What one question holds: the answer as the file writes it, or nothing.
  const answer = (q) => {
    const ticked = ticks(q).filter((t) => t.checked);
    if (ticked.some((t) => "unsure" in t.dataset)) return "unsure";
    if (q.dataset.kind === "choice") return ticked[0] && { choice: ticked[0].value };
    if (q.dataset.kind === "choices") return ticked.length ? { choices: ticked.map((t) => t.value) } : undefined;
    const number = ticked.length ? ticked[0].value : typed(q).value.trim();
    return number ? { number } : undefined;
  };
  // A typed number outside its range, or no number at all.
  const misfit = (q) => {
    const input = typed(q);
    if (!input || !input.value.trim()) return undefined;
    const { least, most } = input.dataset;
    const value = input.value.trim();
    const fits = /^-?[0-9]{1,7}(\.[0-9]{1,3})?$/.test(value) && Number(value) >= Number(least) && Number(value) <= Number(most);
    return fits ? undefined : fill(said.dataset.range, { least, most });
  };

  const show = () => {
    const done = questions.filter((q) => answer(q)).length;
    count.textContent = fill(count.dataset.said, { done, all: count.dataset.all });
    for (const q of questions) {
      q.querySelector(".clear").hidden = !answer(q) && !words(q).value;
      const input = typed(q);
      if (input) input.setAttribute("aria-invalid", misfit(q) ? "true" : "false");
    }
  };
  const empty = (q) => {
    for (const t of ticks(q)) t.checked = false;
    if (typed(q)) typed(q).value = "";
    words(q).value = "";
  };

  for (const q of questions) {
    q.addEventListener("change", (event) => {
      const it = event.target;
      if (it.type === "checkbox" && it.checked) {
        // One that stands alone leaves no other beside it, and gives way to any other.
        const alone = "alone" in it.dataset;
        for (const t of ticks(q)) if (t !== it && (alone || "alone" in t.dataset)) t.checked = false;
        if (alone && typed(q)) typed(q).value = "";
      }
    });
    if (typed(q)) typed(q).addEventListener("input", () => { for (const t of ticks(q)) t.checked = false; });
    q.querySelector(".clear").addEventListener("click", () => {
      empty(q);
      saved = false;
      show();
      q.querySelector("input").focus();
    });
  }
  for (const kind of ["input", "change"]) {
    document.querySelector("main").addEventListener(kind, (event) => {
      if (event.target.type === "file") return;
      saved = false;
      show();
    });
  }

  const today = () => {
    const now = new Date();
    const two = (n) => String(n).padStart(2, "0");
    return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
  };
  document.getElementById("save").addEventListener("click", () => {
    const wrong = questions.find(misfit);
    if (wrong) {
      said.textContent = fill(said.dataset.look, { number: wrong.dataset.number, what: misfit(wrong) });
      typed(wrong).focus();
      return;
    }
    const answers = questions.flatMap((q) => {
      const [is, own] = [answer(q), words(q).value.trim()];
      if (!is && !own) return [];
      return [{ item: q.dataset.item, ...(is && { is }), ...(own && { words: own }) }];
    });
    const file = {
      form: FORM, v: Number(sheet.version), survey: sheet.survey, catalog: sheet.catalog, language: sheet.language,
      "filled-on": today(), "filled-by": who.value.trim() || null, answers, remark: remark.value.trim() || null,
    };
    const name = `${sheet.file}.json`;
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([JSON.stringify(file, null, 1) + "\n"], { type: "application/json" }));
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
    saved = true;
    said.textContent = fill(said.dataset.saved, { file: name });
  });
  document.getElementById("print").addEventListener("click", () => print());

  // Puts the answers of a saved file of this very sheet back into the page; anything else changes nothing.
  const putBack = (file) => {
    if (file?.form !== FORM || String(file.v) !== sheet.version || file.survey !== sheet.survey) return false;
    if (!Array.isArray(file.answers)) return false;
    for (const q of questions) empty(q);
    for (const one of file.answers) {
      const q = questions.find((it) => it.dataset.item === one?.item);
      if (!q) continue;
      const { choice, choices, number } = one.is ?? {};
      const wanted = [choice, ...(Array.isArray(choices) ? choices : []), number].map(String);
      for (const t of ticks(q)) {
        t.checked = one.is === "unsure" ? "unsure" in t.dataset : !("unsure" in t.dataset) && wanted.includes(t.value);
      }
      if (typed(q) && number !== undefined && !ticks(q).some((t) => t.checked)) typed(q).value = String(number);
      words(q).value = typeof one.words === "string" ? one.words : "";
    }
    who.value = typeof file["filled-by"] === "string" ? file["filled-by"] : "";
    remark.value = typeof file.remark === "string" ? file.remark : "";
    return true;
  };
  document.getElementById("reopen").addEventListener("change", async (event) => {
    let back = false;
    try {
      back = putBack(JSON.parse(await event.target.files[0].text()));
    } catch {
      // Not JSON, or not readable: said below, and nothing was changed.
    }
    said.textContent = back ? said.dataset.reopened : said.dataset.notOurs;
    event.target.value = "";
    show();
  });

  addEventListener("beforeunload", (event) => { if (!saved) event.preventDefault(); });
  for (const it of document.querySelectorAll(".scripted")) it.hidden = false;
  for (const it of document.querySelectorAll(".unscripted")) it.hidden = true;
  show();
})();
