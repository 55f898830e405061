import { signal } from '@preact/signals';
import { Frame } from './Frame.tsx';
import { Feedback } from './feedback.tsx';
import { Pair } from './Pair.tsx';
import { codeFromAddress } from './pairing.ts';
import { path } from './router.ts';
import { FIRST, LISTS, ONES } from './routes.ts';
import { needsPairing, phone } from './state.ts';

const code = signal(codeFromAddress());
// a pairing link opened while the app is open already changes nothing but what stands behind the #
addEventListener('hashchange', () => {
  code.value = codeFromAddress() || code.value;
});

export function App() {
  return (
    <>
      <Screen />
      <Feedback />
    </>
  );
}

function Screen() {
  if (needsPairing.value) return <Pair code={code.value} />;
  if (!phone.value) return null;
  const [word = '', id] = path.value.split('/').slice(1);
  if (word === 'pair') return <Pair code={code.value} />;
  const One = ONES[word];
  if (One && id) return <One id={decodeURIComponent(id)} key={id} />;
  const List = word === '' ? FIRST : LISTS[word];
  if (List && !id) return <List />;
  return (
    <Frame title="Nothing here">
      <p>There is no screen at this address. The keys below lead to those there are.</p>
    </Frame>
  );
}
