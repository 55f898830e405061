// the ground first: what a screen says of its own looks comes after it
import './shell/typeface.css';
import './shell/base.css';
import { render } from 'preact';
import { App } from './shell/App.tsx';
import { keepInStep, openPhone, phone } from './shell/state.ts';
import { startUpdates } from './shell/update.ts';

const place = document.getElementById('app');
if (place) render(<App />, place);
await openPhone();
keepInStep();
await startUpdates(async () => ((await phone.value?.outboxCount()) ?? 0) === 0);
