// A small rivet in side section: how far an operation is, drawn through two sheets. A cell is 60
// wide; the sheets lie between 26 and 42, the factory head is above, the shop head below.

export const CELL = 60;

export interface Drawn {
  sheets: string; // the outlines of the two sheets
  solid: string; // metal of the rivet, filled
  heavy: string; // a bar across
  thin: string; // the ring that says: look here, or the dash that says: not needed
  centre: string; // the centre line of a hole to come
}

const NOTHING: Drawn = { sheets: '', solid: '', heavy: '', thin: '', centre: '' };

const FACTORY_HEAD = (x: number, y: number): string =>
  `M${x + 18} ${y}C${x + 18} ${y - 12} ${x + 42} ${y - 12} ${x + 42} ${y}Z`;
const SHANK = (x: number, from: number, to: number): string =>
  `M${x + 25} ${from}H${x + 35}V${to}H${x + 25}Z`;
const SHOP_HEAD = (x: number): string =>
  `M${x + 23} 42H${x + 37}C${x + 41} 44 ${x + 41} 48 ${x + 38} 50H${x + 22}C${x + 19} 48 ${x + 19} 44 ${x + 23} 42Z`;
const BENT_OVER = (x: number): string =>
  `M${x + 25} 42H${x + 35}C${x + 35} 46 ${x + 40} 47 ${x + 47} 45L${x + 48} 53C${x + 34} 57 ${x + 25} 54 ${x + 25} 42Z`;

// One mark by its letter in a strip, with its left edge at x.
export function drawMark(letter: string, x = 0): Drawn {
  const sheets = [26, 34, 42].map((y) => `M${x - 1} ${y}H${x + CELL + 1}`).join('');
  const centre = `M${x + 30} 10V58`;
  switch (letter) {
    case 'd':
      return { ...NOTHING, sheets, solid: FACTORY_HEAD(x, 26) + SHANK(x, 25, 43) + SHOP_HEAD(x) };
    case 'p':
      return { ...NOTHING, sheets, solid: FACTORY_HEAD(x, 26) + SHANK(x, 25, 54) };
    case 'a':
      return {
        ...NOTHING,
        sheets,
        solid: FACTORY_HEAD(x, 19) + SHANK(x, 18, 43) + BENT_OVER(x),
      };
    case 'l':
      return {
        ...NOTHING,
        sheets,
        centre,
        thin: `M${x + 14} 34A16 16 0 0 1 ${x + 46} 34A16 16 0 0 1 ${x + 14} 34Z`,
      };
    case 'b':
      return { ...NOTHING, sheets, heavy: `M${x + 17} 54L${x + 43} 14` };
    case 't':
      return { ...NOTHING, sheets, centre };
    default:
      return { ...NOTHING, sheets, thin: `M${x + 21} 55H${x + 39}` };
  }
}

// A whole strip as five paths, so that a list of hundreds stays light.
export function drawStrip(strip: string): Drawn {
  const marks = [...strip].map((letter, at) => drawMark(letter, at * CELL));
  const join = (part: keyof Drawn): string => marks.map((mark) => mark[part]).join('');
  return {
    sheets: join('sheets'),
    solid: join('solid'),
    heavy: join('heavy'),
    thin: join('thin'),
    centre: join('centre'),
  };
}
