import { render } from 'preact';
import { startUpdates } from './shell/update.ts';
import './shell/typeface.css';

const place = document.getElementById('app');
if (place) render(<h1>Bucktail</h1>, place);
// nothing is recorded by this page yet, so nothing can be waiting to be sent
void startUpdates(async () => true);
