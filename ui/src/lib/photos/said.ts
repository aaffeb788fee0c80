// What kinds of marks, their points and sheets are called: ids of messages.
import type { MarkKind } from '../bindings/views';
import type { SHEETS } from './on-paper.svelte';
import type { Tool } from './marked.svelte';

export const MARKS: Record<MarkKind, string> = { ring: 'mark-ring', arrow: 'mark-arrow', dimension: 'mark-dimension', words: 'mark-words', paper: 'mark-paper' };
export const ENDS: Record<Tool, string[]> = { ring: ['mark-ring-middle', 'mark-ring-edge'], arrow: ['mark-arrow-tail', 'mark-arrow-head'], dimension: ['mark-end-1', 'mark-end-2'], words: ['mark-words-start'] };
export const HOW: Record<Tool, string> = { ring: 'mark-ring-how', arrow: 'mark-arrow-how', dimension: 'mark-dimension-how', words: 'mark-words-how' };
export const SIZES: Record<(typeof SHEETS)[number], string> = { letter: 'sheet-letter', a4: 'sheet-a4', own: 'sheet-own' };
