// Lists that are ticked on a device in the field. Without this file a list is read and ticked on paper.
// Ticks stay in the browser's own store on this device; nothing is sent anywhere. The record file that it saves is
// read by `dossier add-record`, which checks the same rules again (dossier/completed_lists/checks.py).
{
  const FORMAT = "dossier-list/1";
  const LONGEST = { name: 80, reason: 300, note: 500 };
  const desk = document.querySelector(".desk[data-list]");

  const { is_sound, make, button, plain, typed, count, line, with_text, now, clock, minutes_since } = listTools;
  const LONG_BREAK = 240; // minutes; common practice, no source: after that, somebody else may have touched the aircraft
  const CLOCK_PLAY = 1; // minutes by which a clock may be set back without a question

  if (desk) {
    // ---------- the list as the page has it ----------
    const about = desk.dataset;
    const entries = [...document.querySelectorAll(".step__tick[name]")].map((box, place) => {
      const name = box.name, second = name.endsWith("-second"), row = box.closest(".step, li");
      const kind = second ? "second-check" : name.startsWith("step-") ? "step" : "count";
      const text = plain(row.querySelector(".step__text").textContent);
      const number = name.split("-")[1];
      const words = kind === "count" ? `count at the ${name.split("-")[0]}, ${text}` : `step ${number}${second ? ", second check" : ""}`;
      const log = make("div", { className: "log" });
      if (kind === "count") row.append(log); else row.after(log);
      return { place, name, box, kind, text, words, log, number, step: second ? name.replace("-second", "") : null };
    });
    const of = Object.fromEntries(entries.map((entry) => [entry.name, entry]));
    const pair = about.people !== "1" || entries.some((entry) => entry.kind === "second-check");

    // ---------- what is kept ----------
    const family = [FORMAT, about.type, about.serial, about.list].join("|") + "|";
    const key = family + about.digest;
    const empty = () => ({ started: "", edition: about.edition, as_of: about.asOf, saved: "", people: ["", ""], active: 0, ticks: {}, notes: {}, taken_back: [] });
    let state = empty(), keeps = true, unreadable = false, same_work = false;
    const read = () => {
      if (!keeps) return; // what is kept is older than what is here
      try {
        state = Object.assign(empty(), JSON.parse(localStorage.getItem(key)));
        if (!is_sound(state)) throw new SyntaxError("not what this page keeps");
        for (const held of [state.ticks, state.notes]) for (const name of Object.keys(held)) if (!of[name]) delete held[name];
      } catch (error) {
        if (error instanceof SyntaxError || error instanceof TypeError) { state = empty(); unreadable = true; } else keeps = false;
      }
    };
    const keep = () => {
      try { localStorage.setItem(key, JSON.stringify(state)); keeps = true; } catch { keeps = false; }
      show();
    };
    const change = (alter, { is_saved = false } = {}) => { // another window may have gone on meanwhile
      read();
      alter();
      if (!is_saved) state.saved = "";
      keep();
    };
    const older = () => { try { return Object.keys(localStorage).filter((one) => one.startsWith(family) && one !== key); } catch { return []; } };

    // ---------- the rules ----------
    const stage = (entry) => (entry.kind !== "count" ? 1 : entry.name.startsWith("start") ? 0 : 2);
    const stands_on = (later, earlier) => // a count may be made in any order; all else in the order of the list
      stage(earlier) < stage(later) || (stage(later) === 1 && stage(earlier) === 1 && earlier.place < later.place);
    const passed = () => new Set(Object.values(state.ticks).flatMap((tick) => tick.override?.missing ?? []));
    const missing = (entry) => {
      const over = passed();
      return entries.filter((one) => stands_on(entry, one) && !state.ticks[one.name] && (!over.has(one.name) || one.name === entry.step));
    };
    const last = () => Object.values(state.ticks).at(-1)?.at ?? ""; // they are kept in the order in which they were made
    const is_long_ago = () => { const at = last(); return at !== "" && !same_work && minutes_since(at) > LONG_BREAK; };
    const same_person = (entry) => entry.step && state.ticks[entry.step] && state.ticks[entry.step].who === state.active;
    const next = () => { const over = passed(); return entries.find((one) => !state.ticks[one.name] && !over.has(one.name)); };

    const tick = (entry, who, override) => {
      ask.close();
      change(() => {
        const at = now();
        if (!Object.keys(state.ticks).length) Object.assign(state, { edition: about.edition, as_of: about.asOf });
        state.started ||= at;
        state.ticks[entry.name] = override ? { at, who, override } : { at, who };
      });
      same_work = true;
    };

    // ---------- a question under the row that it is about ----------
    const ask = {
      panel: null, entry: null,
      open(entry, words, ...controls) {
        ask.close();
        ask.entry = entry;
        const said = make("p", { id: "ask", className: "ask__words", tabIndex: -1, textContent: words });
        ask.panel = make("div", { className: "ask", role: "group", labelledby: "ask" }, said, ...controls, button("Cancel", () => ask.close(), "desk__button--quiet"));
        ask.panel.addEventListener("keydown", (event) => event.key === "Escape" && ask.close());
        (entry?.log ?? tools).after(ask.panel);
        said.focus({ preventScroll: true });
        ask.panel.scrollIntoView({ block: "nearest" });
      },
      close() {
        ask.panel?.remove();
        ask.panel = null;
        ask.entry?.box.focus({ preventScroll: true });
        ask.entry = null;
      },
    };
    const name_person = (who, name) => {
      const is_other = name.toLowerCase() === state.people[1 - who].toLowerCase();
      if (!is_other) state.people[who] = name;
      return !is_other;
    };
    const ask_name = (entry, who, words, then) =>
      ask.open(entry, words, ...with_text("Name", LONGEST.name, "Go on", (name) => {
        read();
        if (!name_person(who, name)) return ask_name(entry, who, `${name} is the other person. Write another name.`, then);
        keep();
        return then();
      }));
    const ask_whether_same_work = (entry) =>
      ask.open(entry, `The last tick is of ${clock(last())}. Go on only with the same work, if nobody has touched the aircraft since: after an interruption, go back two steps and do them again.`,
        button("Go on with that work", () => { same_work = true; ask.close(); attempt(entry); }), button("Start again", restart));
    const attempt = (entry) => {
      read();
      const who = state.active;
      if (state.ticks[entry.name]) return show(); // another window ticked it
      if (is_long_ago()) return ask_whether_same_work(entry);
      if (!state.people[who]) return ask_name(entry, who, "Who is ticking? The name stands with each tick.", () => attempt(entry));
      const lacking = missing(entry), alone = same_person(entry), other = 1 - who, set_back = last() !== "" && minutes_since(last()) < -CLOCK_PLAY;
      if (!lacking.length && !alone && !set_back) return tick(entry, who);
      const words = [], controls = [];
      if (lacking.length) {
        const first = lacking[0];
        words.push(`Not yet: ${lacking.length > 3 ? `${first.words} and ${lacking.length - 1} others come` : `${lacking.map((one) => one.words).join("; ")} ${lacking.length > 1 ? "come" : "comes"}`} first.`);
        controls.push(button(`Go to ${first.kind === "count" ? "the count" : first.words}`, () => { ask.close(); go_to(first); }));
        if (entry.step && lacking.includes(of[entry.step])) return ask.open(entry, `${words[0]} A second check looks at a step that is done.`, ...controls);
      }
      if (set_back) words.push(`The clock of this device says ${clock(now())}, which is before the last tick, ${clock(last())}. Set it right.`);
      if (alone) {
        words.push(`${state.people[who]} ticked the step. The second check is made by another person.`);
        if (!lacking.length && !set_back && state.people[other]) controls.push(button(`I am ${state.people[other]}: tick`, () => tick(entry, other)));
        if (!lacking.length && !set_back && !state.people[other]) controls.push(button("I am the other person", () => ask_name(entry, other, "Who makes the second check?", () => tick(entry, other))));
      }
      const label = alone && !lacking.length && !set_back ? "Nobody else is here? Say why you tick it all the same" : "Or say why you tick it all the same";
      return ask.open(entry, words.join(" "), ...controls, ...with_text(label, LONGEST.reason, "Tick with this reason",
        (reason) => tick(entry, who, { reason, missing: lacking.map((one) => one.name), same_person: Boolean(alone) })));
    };
    const withdraw = (entry) => {
      const later = () => entries.filter((one) => state.ticks[one.name] && stands_on(one, entry)), number = later().length;
      const take_back = () => {
        ask.close();
        change(() => {
          const gone = [entry, ...later()];
          for (const one of gone) delete state.ticks[one.name];
          state.taken_back.push({ tick: entry.name, at: now(), ticks: gone.length });
        });
      };
      if (!number) return take_back();
      return ask.open(entry, `${count(number, "later tick stands", "later ticks stand")} on this one and ${number === 1 ? "goes" : "go"} with it.`, button(`Take back ${number + 1} ticks`, take_back));
    };
    const write_note = (entry) => {
      const [row, field] = line(`Note on ${entry.words}`, state.notes[entry.name] ?? "", LONGEST.note, "textarea");
      ask.open(entry, `A note stays with the tick and goes into the record file. It has room for ${LONGEST.note} letters.`, row, button("Keep the note", () => {
        const text = typed(field, LONGEST.note);
        ask.close();
        change(() => { if (text) state.notes[entry.name] = text; else delete state.notes[entry.name]; });
      }));
      field.focus();
    };
    const restart = () => {
      const number = Object.keys(state.ticks).length;
      const saved = state.saved ? `The record file was saved at ${clock(state.saved, now().slice(0, 10))}.` : "They are in no record file: save it first if you need it.";
      ask.open(null, `Start again? ${count(number, "tick", "ticks")} and all notes of this list are deleted from this device. ${saved}`,
        button("Delete and start again", () => {
          ask.close();
          same_work = true;
          change(() => {
            const { people, active } = state;
            try { for (const one of older()) localStorage.removeItem(one); } catch { keeps = false; }
            state = Object.assign(empty(), { people, active });
          });
        }));
    };

    // ---------- the record file ----------
    const record = () => ({
      format: FORMAT, type: about.type, serial_number: about.serial, edition: state.edition, as_of: state.as_of,
      procedure: about.list, title: about.title, digest: about.digest, people: state.people.filter(Boolean), started: state.started, saved: now(),
      ticks: entries.map((entry) => {
        const made = state.ticks[entry.name];
        return { tick: entry.name, kind: entry.kind, text: entry.text, done: made?.at, by: made && state.people[made.who], note: state.notes[entry.name], override: made?.override };
      }),
      open: entries.filter((entry) => !state.ticks[entry.name]).map((entry) => entry.name),
      taken_back: state.taken_back,
    });
    let blob = "";
    const save_link = (className = "") => {
      const link = make("a", { className: `desk__button ${className}`, href: "#", textContent: "Save the record file" });
      link.addEventListener("click", () => {
        if (blob) URL.revokeObjectURL(blob);
        read();
        blob = URL.createObjectURL(new Blob([`${JSON.stringify(record(), null, 2)}\n`], { type: "application/json" }));
        link.href = blob;
        link.download = `${about.list}-${about.serial}-${now().slice(0, 16).replace(/[T:]/g, "-")}.json`;
        setTimeout(() => change(() => { state.saved = now(); }, { is_saved: true })); // after the browser has followed the link
      });
      return link;
    };

    // ---------- what is seen ----------
    const names = [0, 1].slice(0, pair ? 2 : 1).map((who) => {
      const [row, field] = line(who ? "Second person" : pair ? "First person" : "Your name", "", LONGEST.name);
      field.addEventListener("change", () => change(() => { if (!name_person(who, typed(field, LONGEST.name))) state.people[who] = ""; }));
      return { row, field };
    });
    const stay = make("p"), said = make("p", { className: "progress__words", role: "status" });
    const again = button("Start again", restart, "desk__button--quiet");
    const saves = [save_link(), save_link(), save_link("progress__save")];
    const tools = make("div", { className: "desk__tools" }, saves[0], again), printed = make("p", { className: "print-only" });
    const turn = button("", () => change(() => { state.active = 1 - state.active; }), "progress__who");
    const onward = make("a", { className: "desk__button progress__next" });
    desk.append(make("h2", { className: "desk__title", textContent: "Tick on this device" }), stay,
      make("div", { className: "desk__names" }, ...names.map(({ row }) => row)), tools);
    desk.after(printed);
    document.querySelector(".signatures")?.before(make("p", { className: "screen-only" }, saves[1]));
    const bar = make("div", { className: "progress screen-only", role: "region", label: "Progress of this list" },
      make("div", { className: "progress__row" }, said, ...(pair ? [turn] : []), onward, saves[2]));
    desk.closest("article").append(bar);

    const show_entry = (entry, over, current) => {
      const made = state.ticks[entry.name], note = state.notes[entry.name], open = over.has(entry.name) && !made;
      entry.box.checked = Boolean(made);
      if (entry === current) entry.box.setAttribute("aria-current", "step"); else entry.box.removeAttribute("aria-current");
      const lines = [];
      if (made) lines.push(make("span", { textContent: `${clock(made.at, state.started.slice(0, 10))}, ${state.people[made.who]}` }));
      if (made?.override) lines.push(make("span", { className: "log__reason", textContent: `${made.override.same_person ? "No other person. " : ""}${made.override.missing.length ? "Out of order. " : ""}Reason: ${made.override.reason}` }));
      if (open) lines.push(make("strong", { textContent: "Open, passed over" }));
      if (entry === current) lines.push(make("strong", { className: "screen-only", textContent: "Next" }));
      if (note) lines.push(make("span", { textContent: `Note: ${note}` }));
      if (made || open || note || (entry === current && entry.kind !== "count")) {
        const write = button(note ? "Change note" : "Note", () => write_note(entry), "desk__button--quiet screen-only");
        write.setAttribute("aria-label", `${note ? "Change note" : "Note"} on ${entry.words}`);
        lines.push(write);
      }
      entry.log.replaceChildren(...lines);
    };
    const show = () => {
      const over = passed(), current = next(), done = (kind) => entries.filter((one) => one.kind === kind && state.ticks[one.name]).length;
      const all = (kind) => entries.filter((one) => one.kind === kind).length;
      const checks = all("second-check") - done("second-check"), counts = all("count") - done("count");
      for (const entry of entries) show_entry(entry, over, current);
      const begun = Object.keys(state.ticks).length > 0, open = entries.filter((one) => !state.ticks[one.name]).length;
      const words = [`${done("step")} of ${count(all("step"), "step", "steps")}`];
      if (checks) words.push(`${count(checks, "second check", "second checks")} open`);
      if (counts && done("step") === all("step")) words.push("count open");
      if (!open) words.push("complete");
      else if (!current) words.push(`at its end, ${open} passed over`);
      if (!keeps && begun) words.push("not kept on this device");
      said.textContent = `${is_long_ago() ? `Of ${clock(last())}: ` : ""}${words.join(", ")}`;
      stay.textContent = [
        keeps ? "Ticks, notes and names stay in this browser on this device, also when it is closed or offline. Nobody else sees them."
          : "This browser does not keep ticks here: they are lost when the page is closed. Save the record file before that, or work on paper.",
        unreadable ? "What was kept before could not be read, so the list is empty." : "",
        older().length ? "Ticks for another wording of this list are also on this device; they do not count here." : "",
        state.saved ? `The record file was saved at ${clock(state.saved, now().slice(0, 10))}.` : "",
        "Times are those of this device's clock.",
      ].filter(Boolean).join(" ");
      names.forEach(({ field }, who) => {
        if (document.activeElement !== field) field.value = state.people[who];
        field.readOnly = Object.values(state.ticks).some((tick) => tick.who === who);
      });
      turn.textContent = `By ${state.people[state.active] || `person ${state.active + 1}`}`;
      turn.setAttribute("aria-label", `${turn.textContent}. Change to the other person`);
      for (const one of [again, ...saves]) one.hidden = !begun;
      again.hidden = !begun && !Object.keys(state.notes).length;
      onward.hidden = turn.hidden = !current;
      saves[2].hidden ||= Boolean(current);
      if (current) {
        current.box.id ||= `tick-${current.name}`;
        onward.href = `#${current.box.id}`;
        onward.textContent = current.kind === "count" ? "Count" : current.step ? `Check ${current.number}` : `Step ${current.number}`;
        onward.setAttribute("aria-label", `Next: ${current.words}`);
      }
      printed.textContent = begun ? `Ticked on a device by ${state.people.filter(Boolean).join(" and ")}, begun ${clock(state.started)}: ${words.join(", ")}.` : "";
    };
    const go_to = (entry) => {
      entry.box.focus({ preventScroll: true });
      entry.box.closest(".step, li").scrollIntoView({ block: "center" });
    };
    onward.addEventListener("click", (event) => { event.preventDefault(); go_to(next()); });
    for (const entry of entries) {
      entry.box.addEventListener("change", () => {
        const wanted = entry.box.checked;
        entry.box.checked = !wanted; // it changes when the rules let it
        if (wanted) attempt(entry); else withdraw(entry);
      });
    }
    const look_again = () => { read(); show(); };
    addEventListener("storage", (event) => { if (event.key === key || event.key === null) look_again(); }); // another window
    addEventListener("pageshow", look_again);
    addEventListener("visibilitychange", () => document.hidden || look_again());
    addEventListener("beforeunload", (event) => { if (!keeps && !state.saved && Object.keys(state.ticks).length) event.preventDefault(); });
    read();
    try { localStorage.setItem(`${FORMAT}?`, ""); localStorage.removeItem(`${FORMAT}?`); } catch { keeps = false; }
    show();
  }
}
