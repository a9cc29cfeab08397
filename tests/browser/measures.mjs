// Functions that run inside a page and measure what a reader sees. Each returns plain data.

/** Pairs of texts of one picture whose boxes overlap. */
export function overlappingTexts() {
  const found = [];
  for (const picture of document.querySelectorAll('main svg[role]')) {
    const boxes = [...picture.querySelectorAll('text')].map((text) => ({
      text: text.textContent, box: text.getBoundingClientRect(),
    }));
    boxes.forEach(({ text, box: a }, i) => {
      for (const { text: other, box: b } of boxes.slice(i + 1)) {
        if (a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom) {
          found.push(`${picture.getAttribute('class')}: "${text}" and "${other}"`);
        }
      }
    });
  }
  return found;
}

/** What reaches beyond the window, but for what lies in a frame that scrolls. */
export function overflowing() {
  const width = document.documentElement.clientWidth;
  const found = document.documentElement.scrollWidth > width ? ['the page itself'] : [];
  for (const element of document.querySelectorAll('body *')) {
    const inside = element.parentElement.closest('.wide');
    if (!inside && element.getBoundingClientRect().right > width + 0.5) found.push(element.outerHTML.slice(0, 80));
  }
  return found;
}

/** Texts with a contrast below 4.5 to 1 (WCAG 2.1, 1.4.3), with their contrast. */
export function faintTexts() {
  const channels = (color) => color.match(/[\d.]+/g).map(Number);
  const luminance = (color) => {
    const [r, g, b] = channels(color).map((value) => {
      const share = value / 255;
      return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const contrast = (a, b) => {
    const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x);
    return (light + 0.05) / (dark + 0.05);
  };
  const background = (element) => {
    if (element.closest('svg.plate')) {
      const layer = getComputedStyle(element.closest('svg').querySelector('.layer')).fill;
      if (!element.matches('.tick')) return layer;
    }
    for (let at = element; at; at = at.parentElement) {
      const color = getComputedStyle(at).backgroundColor;
      if (channels(color)[3] !== 0) return color;
    }
    return 'rgb(255, 255, 255)';
  };
  const found = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const element = node.parentElement;
    const hidden = element.closest('script, style, title, desc');
    if (hidden || node.textContent.trim() === '') continue;
    const style = getComputedStyle(element);
    const ratio = contrast(element.closest('svg') ? style.fill : style.color, background(element));
    if (ratio < 4.5) found.push(`${ratio.toFixed(2)}: ${node.textContent.trim().slice(0, 40)}`);
  }
  return found;
}
