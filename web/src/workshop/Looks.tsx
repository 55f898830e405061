// Light or evening, left or right hand: on this device only.
import { useState } from 'preact/hooks';
import { chooseHand, chooseTheme, type Hand, hand, type Theme, theme } from '../shell/looks.ts';
import { Choice } from './Choice.tsx';

const THEMES: [Theme, string][] = [
  ['phone', 'As the device says'],
  ['light', 'Light'],
  ['evening', 'Evening'],
];
const HANDS: [Hand, string][] = [
  ['right', 'Right hand'],
  ['left', 'Left hand'],
];

export function Looks() {
  const [shownTheme, setTheme] = useState(theme());
  const [shownHand, setHand] = useState(hand());
  return (
    <section aria-labelledby="looks">
      <h2 id="looks">How it looks here</h2>
      <Choice
        legend="Light"
        options={THEMES}
        chosen={shownTheme}
        choose={(one) => {
          chooseTheme(one);
          setTheme(one);
        }}
      />
      <Choice
        legend="Keys and numbers lie towards the"
        options={HANDS}
        chosen={shownHand}
        choose={(one) => {
          chooseHand(one);
          setHand(one);
        }}
      />
    </section>
  );
}
