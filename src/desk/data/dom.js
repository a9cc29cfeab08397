// Elements made from their description: h('p', { class: 'lead' }, 'text', other).

const kSvg = 'http://www.w3.org/2000/svg';

function fill(element, properties, children) {
  for (const [name, value] of Object.entries(properties ?? {})) {
    if (value === null || value === undefined || value === false) continue;
    if (name.startsWith('on')) element.addEventListener(name.slice(2), value);
    else if (name in element && typeof value !== 'string') element[name] = value;
    else element.setAttribute(name, value === true ? '' : value);
  }
  element.append(...children.flat().filter((child) => child !== null && child !== undefined && child !== false));
  return element;
}

export function h(name, properties, ...children) {
  return fill(document.createElement(name), properties, children);
}

export function svg(name, properties, ...children) {
  const element = document.createElementNS(kSvg, name);
  for (const [key, value] of Object.entries(properties ?? {})) {
    if (value === null || value === undefined || value === false) continue;
    if (key.startsWith('on')) element.addEventListener(key.slice(2), value);
    else element.setAttribute(key, value);
  }
  element.append(...children.flat().filter((child) => child !== null && child !== undefined && child !== false));
  return element;
}

/// A label with its field below it.
export function field(label, input, hint) {
  return h('label', { class: 'field' }, h('span', {}, label), input, hint ? h('small', {}, hint) : null);
}

export function choice(options, chosen, onchange) {
  const select = h('select', { onchange: () => onchange(select.value) },
    options.map(([value, text]) => h('option', { value, selected: value === chosen }, text)));
  return select;
}

export function button(text, onclick, properties = {}) {
  return h('button', { type: 'button', onclick, ...properties }, text);
}

/// Says something to those who see it and to those who hear it.
export function say(text) {
  document.getElementById('said').textContent = text;
}

/// Calls `work` once nothing has called for so many milliseconds.
export function settled(work, milliseconds) {
  let timer = 0;
  return (...given) => {
    clearTimeout(timer);
    timer = setTimeout(() => work(...given), milliseconds);
  };
}

/// A number as people write it, with a point or a comma; NaN where it is none.
export function number(text) {
  const plain = String(text).trim().replace(',', '.');
  return plain === '' ? NaN : Number(plain);
}

export function percent(probability) {
  if (probability > 0.995) return '> 99 %';
  return probability < 0.005 ? '< 1 %' : `${Math.round(probability * 100)} %`;
}
