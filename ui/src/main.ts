// The screens inside the window program.
import { mount } from 'svelte';
import './look/tokens.css';
import './look/look.css';
import App from './App.svelte';
import { tauri } from './lib/host/tauri';
import { words } from './lib/words/words';

document.documentElement.lang = words.language;
const target = document.getElementById('screen');
if (target) mount(App, { target, props: { host: tauri } });
