// Invented photographs, drawn: a wall under a sink with a sheet of letter paper on it, a bulkhead, a panel. `marked`: with
// marks on the first one.
import type { Album } from '../../src/lib/host/album';

const svg = (inside: string) => new Blob([`<svg xmlns="http://www.w3.org/2000/svg" width="1600" height="1200" viewBox="0 0 1600 1200">${inside}</svg>`], { type: 'image/svg+xml' });

const wall = svg(
  '<rect width="1600" height="1200" fill="#b9b0a2"/><rect y="980" width="1600" height="220" fill="#8d8375"/>' +
    '<path d="M0 120h1600v90H0z" fill="#d8d2c6"/><path d="M1040 210v300q0 90-90 90H640" fill="none" stroke="#f2efe8" stroke-width="74"/>' +
    '<circle cx="620" cy="600" r="58" fill="#e6e1d6" stroke="#6d665b" stroke-width="10"/>' +
    '<path d="M210 380 475 395 470 745 200 735z" fill="#fffdf8"/>',
);
const bulkhead = svg(
  '<rect width="1600" height="1200" fill="#cfc8ba"/><path d="M0 0h1600v260L0 420z" fill="#e9e4d9"/><path d="M0 420 1600 260v160L0 600z" fill="#a79d8e"/>' +
    '<path d="M0 760h1600v440H0z" fill="#8a7f70"/><path d="M380 760v440M800 760v440M1220 760v440" stroke="#4d463c" stroke-width="10"/>',
);
const panel = svg('<rect width="1600" height="1200" fill="#77705f"/><rect x="520" y="160" width="560" height="880" fill="#3c3a37"/><path d="M600 300h400M600 400h400M600 500h400M600 600h400" stroke="#d8d2c6" stroke-width="40"/>');

export function album(into: Album, said: (text: string) => string, marked: boolean) {
  const size = { width: 1600, height: 1200 };
  into.held = [
    { ...size, digest: '3f2a9c1d', name: 'under-sink.jpg', key: 'stub-height', picture: wall, marks: [] },
    { ...size, digest: '5b8e02aa', name: 'panel.heic', key: 'sink-mount', picture: null, marks: [] },
    { ...size, digest: '90c4d7e1', name: 'bulkhead.jpg', key: null, picture: bulkhead, marks: [] },
    { ...size, digest: 'a1b2c3d4', name: 'door.jpg', key: null, picture: panel, marks: [] },
  ];
  into.measures.complaints = [];
  into.points.set('dark.jpg', [said('too dark to read a tape in it: take it again?'), said('looks the same as photograph 3f2a9c1d, taken already')]);
  if (!marked) return;
  into.mark('3f2a9c1d', { kind: 'ring', points: [[620, 600], [740, 600]] });
  into.mark('3f2a9c1d', { kind: 'words', points: [[760, 760]], text: 'wet to the touch' });
  into.mark('3f2a9c1d', { kind: 'arrow', points: [[1300, 820], [1080, 520]] });
}
