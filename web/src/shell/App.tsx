import { PartScreen } from '../parts/PartScreen.tsx';
import { PartsScreen } from '../parts/PartsScreen.tsx';
import { Feedback } from './feedback.tsx';
import { codeFromAddress, Pair } from './Pair.tsx';
import { path } from './router.ts';
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
  if (path.value === '/pair') return <Pair code={code} />;
  const [screen, id] = path.value.split('/').slice(1);
  if (screen === 'part' && id) return <PartScreen id={id} key={id} />;
  return <PartsScreen />;
}
