// The screens of the office desk, in a browser over `underlath office`.
import { mount } from 'svelte';
import '../look/tokens.css';
import '../look/look.css';
import './look.css';
import App from './App.svelte';
import { http } from './host/http';
import { showLight } from '../lib/settings/device';
import { words } from './words';

document.documentElement.lang = words.language;
showLight();
const target = document.getElementById('screen');
if (target) mount(App, { target, props: { host: http } });
