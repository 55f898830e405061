import { render } from 'preact';
import './shell/typeface.css';

const place = document.getElementById('app');
if (place) render(<h1>Bucktail</h1>, place);
