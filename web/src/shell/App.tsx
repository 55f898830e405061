import { Frame } from './Frame.tsx';
import { Feedback } from './feedback.tsx';
import { codeFromAddress, Pair } from './Pair.tsx';
import { path } from './router.ts';
import { FIRST, LISTS, ONES } from './routes.ts';
import { needsPairing, phone } from './state.ts';

const code = codeFromAddress();

export function App() {
  return (
    <>
      <Screen />
      <Feedback />
    </>
  );
}

function Screen() {
  if (needsPairing.value) return <Pair code={code} />;
  if (!phone.value) return null;
  const [word = '', id] = path.value.split('/').slice(1);
  if (word === 'pair') return <Pair code={code} />;
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
