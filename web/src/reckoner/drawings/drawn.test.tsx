// @vitest-environment happy-dom
import { render } from 'preact';
import { afterEach, expect, test } from 'vitest';
import { FLATS, HOLES, inch, LAYOUTS, STACKS } from './cases.test.support.ts';
import { FlatDrawing } from './FlatDrawing.tsx';
import { HoleDrawing } from './HoleDrawing.tsx';
import { EdgeDrawing, LayoutDrawing } from './LayoutDrawing.tsx';
import { StackDrawing } from './StackDrawing.tsx';

const root = document.createElement('div');
afterEach(() => render(null, root));

function shown<T>(one: T | undefined): T {
  if (one === undefined) throw new Error('there is no such case');
  return one;
}
const said = (): string => root.querySelector('svg[role="img"]')?.getAttribute('aria-label') ?? '';

test('a joint is said in words with every figure, and its sheets are listed', () => {
  render(<StackDrawing {...shown(STACKS['dimple over thin countersink'])} />, root);
  expect(said()).toBe(
    'A joint in side section, from the factory head: 0.813 mm, dimpled; ' +
      '1.016 mm, countersunk, cut through to a knife edge. Grip 1.829 mm. ' +
      '2.38 mm rivet, flush 100-degree head 4.55 mm across and 0.91 mm high. ' +
      'Before driving, 3.57 mm (1.5 D) of the shank stands out of the sheets. ' +
      'Driven, the shop head is 3.57 mm (1.5 D) across and 1.19 mm (0.5 D) high.',
  );
  expect(root.querySelectorAll('ol > li')).toHaveLength(2);
});

test('a piece is said in words, with what fails, and marking out is cautioned', () => {
  render(<LayoutDrawing {...shown(LAYOUTS['three rows that fail'])} />, root);
  for (const words of [
    'Row 2: 33 holes, pitch 7.62 mm, 13.97 mm from the near edge',
    'Bend line 27.94 mm from the near edge, 6.35 mm from the row beside it.',
    'The edge distance at the end is 1.6 mm short.',
    'The pitch is 2 mm short.',
  ])
    expect(said()).toContain(words);
  expect(root.textContent).toContain('No graphite pencil on aluminium.');
});

test('one hole and its edges', () => {
  const edge = { hole: inch(0.1285), end: inch(0.1875), side: inch(0.25), unit: 'in' } as const;
  render(<EdgeDrawing {...edge} short={{ end: inch(1 / 16) }} />, root);
  expect(said()).toContain('one hole, 1/4 in from the near edge; the first 3/16 in from the left');
  expect(said()).toContain('The edge distance at the end is 1/16 in short.');
});

test('a flat is said in words, bend by bend', () => {
  render(<FlatDrawing {...shown(FLATS.channel)} />, root);
  expect(said()).toContain(
    'Bend 1, up 90 degrees, inside radius .160 in: tangent lines at .800 in and 1.0791 in, ' +
      'bend line at .9395 in, sight line at .960 in.',
  );
  expect(said()).toContain('The grain lies along the bend lines.');
  expect(root.textContent).toContain('Marker only.');
});

test('holes are said in words', () => {
  render(<HoleDrawing {...shown(HOLES.dimpled)} />, root);
  expect(said()).toContain('rivet 3/32 in, drill #40 .098 in, after dimpling .104 in');
});

test('without sheets, holes or rings there is nothing to draw', () => {
  const { rivet } = shown(STACKS['two sheets']);
  const piece = { length: null, width: null, hole: inch(0.1), unit: 'in' } as const;
  const none = { across: inch(0.5), start: inch(0.5), pitch: inch(0.5), count: 0 };
  render(
    <>
      <StackDrawing layers={[]} rivet={rivet} out={0} unit="in" />
      <LayoutDrawing {...piece} rows={[none]} />
      <HoleDrawing rings={[]} unit="in" />
    </>,
    root,
  );
  expect(root.innerHTML).toBe('');
});
