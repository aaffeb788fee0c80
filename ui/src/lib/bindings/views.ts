// Made from crates/views/src/*shape.rs by the test in shape.rs; run it with UPDATE_BINDINGS=1 to write.
export type * from './house';
export type * from './fits';
export type * from './walk';
export type * from './photos';
export type * from './packets';
export type * from './link';
export type * from './settings';
export type * from './office';
export type * from './record';
