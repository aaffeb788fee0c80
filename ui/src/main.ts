// The screens, inside the window program or in a browser over `underlath field`.
import { mount } from 'svelte';
import './look/tokens.css';
import './look/look.css';
import App from './App.svelte';
import { http } from './lib/host/http';
import { inWindow, tauri } from './lib/host/tauri';
import { showLight } from './lib/settings/device';
import { words } from './lib/words/words';

document.documentElement.lang = words.language;
showLight();
const target = document.getElementById('screen');
if (target) mount(App, { target, props: { host: inWindow() ? tauri : http } });
