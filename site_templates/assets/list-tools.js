// What lists.js stands on: elements, typed text, times. One name, so that nothing else lies about in the page.
const listTools = (() => {
  const make = (tag, { role, label, labelledby, ...properties } = {}, ...inside) => {
    const element = Object.assign(document.createElement(tag), properties);
    for (const [name, value] of Object.entries({ role, "aria-label": label, "aria-labelledby": labelledby })) if (value) element.setAttribute(name, value);
    element.append(...inside);
    return element;
  };
  const button = (text, press, className = "") => make("button", { type: "button", className: `desk__button ${className}`, textContent: text, onclick: press });
  const plain = (text) => text.replace(/\s+/g, " ").trim();
  const typed = (field, longest) => plain(field.value.slice(0, longest).replace(/[\p{C}\p{Zl}\p{Zp}]/gu, " "));
  const count = (number, one, more) => `${number} ${number === 1 ? one : more}`;
  const line = (label, value, longest, tag = "input") => {
    const field = make(tag, { value, maxLength: longest, autocomplete: "off" });
    return [make("label", { className: "ask__line" }, make("span", { textContent: label }), field), field];
  };
  const with_text = (label, longest, done, press) => {
    const [row, field] = line(label, "", longest);
    const go = () => { const text = typed(field, longest); if (text) press(text); else field.focus(); };
    field.required = true;
    field.addEventListener("keydown", (event) => event.key === "Enter" && go());
    return [row, button(done, go)];
  };

  const two = (number) => String(number).padStart(2, "0");
  const now = () => { // as ISO 8601 with the offset of this device
    const at = new Date(), offset = -at.getTimezoneOffset(), away = Math.abs(offset);
    const day = `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
    const clock = `${two(at.getHours())}:${two(at.getMinutes())}:${two(at.getSeconds())}`;
    return `${day}T${clock}${offset < 0 ? "-" : "+"}${two(Math.floor(away / 60))}:${two(away % 60)}`;
  };
  const clock = (time, day = "") => (time.slice(0, 10) === day ? time.slice(11, 16) : `${time.slice(0, 10)} ${time.slice(11, 16)}`);
  const minutes_since = (time) => (Date.now() - Date.parse(time)) / 60000;
  const is_text = (value) => typeof value === "string", is_who = (value) => value === 0 || value === 1;
  const is_tick = (tick) => tick && is_who(tick.who) && is_text(tick.at) && !Number.isNaN(Date.parse(tick.at)) && (!tick.override || (is_text(tick.override.reason) && Array.isArray(tick.override.missing)));
  const is_sound = (kept) => [kept.started, kept.saved, kept.edition, kept.as_of].every(is_text) && Array.isArray(kept.people) && kept.people.length === 2 && kept.people.every(is_text)
    && is_who(kept.active) && Array.isArray(kept.taken_back) && Object.values(kept.ticks).every(is_tick) && Object.values(kept.notes).every(is_text);
  return { is_sound, make, button, plain, typed, count, line, with_text, now, clock, minutes_since };
})();
