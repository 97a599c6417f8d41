// Every text that shows, with its contrast against what lies behind it (WCAG 2 relative luminance).
// Returns [{text, ratio, color, behind}].
const parse = (text) => {
  const m = text.match(/rgba?\(([^)]+)\)/);
  if (!m) return [0, 0, 0, 0];
  const [r, g, b, a = 1] = m[1].split(/[ ,/]+/).filter(Boolean).map(Number);
  return [r, g, b, a];
};
const over = (top, below) => {
  const a = top[3];
  return [0, 1, 2].map((i) => top[i] * a + below[i] * (1 - a)).concat([1]);
};
const luminance = (c) => {
  const [r, g, b] = c.slice(0, 3).map((v) => {
    const s = v / 255;
    return s <= 0.04045 ? s / 12.92 : ((s + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};
const ratio = (a, b) => {
  const [hi, lo] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (hi + 0.05) / (lo + 0.05);
};
const opacity = (element) => {
  let all = 1;
  for (let e = element; e instanceof Element; e = e.parentElement) all *= Number(getComputedStyle(e).opacity);
  return all;
};
const canvas = matchMedia("(prefers-color-scheme: dark)").matches ? [18, 18, 18, 1] : [255, 255, 255, 1];
const everything = document.createElement("style");
everything.textContent = "* { pointer-events: all !important }";
document.head.append(everything);

// Colours behind a point, from the text's own element down.
const behind = (element, x, y) => {
  const layers = [];
  for (const e of document.elementsFromPoint(x, y)) {
    if (e === element || e.closest("text") || e.tagName === "title") continue;
    const style = getComputedStyle(e);
    if (e instanceof SVGElement && !(e instanceof SVGSVGElement)) {
      if (style.fill !== "none") {
        const c = parse(style.fill);
        layers.push([c[0], c[1], c[2], c[3] * Number(style.fillOpacity) * opacity(e)]);
      }
    } else {
      const c = parse(style.backgroundColor);
      if (c[3] > 0) layers.push(c);
    }
  }
  const own = element instanceof SVGElement ? [] : [parse(getComputedStyle(element).backgroundColor)];
  return [...layers.reverse(), ...own].reduce((below, top) => over(top, below), canvas);
};

const found = [];
const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
while (walker.nextNode()) {
  const node = walker.currentNode;
  const element = node.parentElement;
  if (!node.data.trim() || ["SCRIPT", "STYLE", "TITLE", "title", "desc"].includes(element.tagName)) continue;
  if (!element.checkVisibility({ checkVisibilityCSS: true })) continue;
  element.scrollIntoView({ block: "center", inline: "center", behavior: "instant" });
  const range = document.createRange();
  range.selectNodeContents(node);
  const box = [...range.getClientRects()].find((r) => r.width > 0 && r.height > 0);
  if (!box) continue;
  const style = getComputedStyle(element);
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const back = behind(element, x, y);
  const ink = parse(element instanceof SVGElement ? style.fill : style.color);
  const seen = over([ink[0], ink[1], ink[2], ink[3] * opacity(element)], back);
  found.push({ text: node.data.trim().slice(0, 60), ratio: ratio(seen, back), color: seen, behind: back });
}
everything.remove();
return found;
