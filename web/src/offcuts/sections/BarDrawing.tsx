// The drawing of a length of stock, with its reminder beneath.
import { Drawn } from '../../reckoner/drawings/Drawn.tsx';
import { MARKING_OUT } from '../words.ts';
import { type DrawnBar, drawBar } from './bar.ts';
import './sections.css';

interface Props {
  bar: DrawnBar;
  /** what it shows, for those who do not see it */
  words: string;
  /** stands under the last of several */
  reminder?: boolean;
}

export function BarDrawing({ bar, words, reminder = true }: Props) {
  return (
    <figure class="bar-drawing">
      <Drawn draw={(width) => drawBar(bar, width)} words={words} />
      {reminder && (
        <figcaption>
          {MARKING_OUT} (Common practice.) A reminder, not approval: the kit maker’s plans come
          first.
        </figcaption>
      )}
    </figure>
  );
}
