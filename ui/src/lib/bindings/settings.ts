// Made from crates/views/src/*shape.rs by the test in shape.rs; run it with UPDATE_BINDINGS=1 to write.

export type SettingsView = { 
/**
 * The firm, as it stands on pages; empty until it is set.
 */
firm: string, 
/**
 * The line under it, as street and telephone; empty until it is set.
 */
address: string, 
/**
 * Who walks; empty until somebody said so.
 */
by: string, 
/**
 * Name of the device.
 */
device: string, 
/**
 * Id of the device.
 */
deviceId: string, 
/**
 * Thumbprint of the key it seals with; empty until it made one.
 */
key: string, 
/**
 * Who vouches for that key, in words.
 */
keyState: string, 
/**
 * Language of the screens; none: as the device.
 */
language: string | null, 
/**
 * "paper" or "dark"; none: as the device.
 */
light: string | null, 
/**
 * True where the keypad begins in millimeters.
 */
metric: boolean, 
/**
 * How close a reading is until somebody says otherwise, as the keypad writes it: `1/8"`.
 */
tolerance: string, 
/**
 * The code books, by family.
 */
codes: Array<CodesView>, 
/**
 * Houses on this device.
 */
houses: number, 
/**
 * Photographs on this device.
 */
photos: number, 
/**
 * Where the records lie.
 */
folder: string, 
/**
 * Name and digest of the catalog.
 */
catalog: string, 
/**
 * Name and version of the program.
 */
software: string, };

export type ScreensView = { 
/**
 * Their language; none: as the device.
 */
language: string | null, 
/**
 * "paper" or "dark"; none: as the device.
 */
light: string | null, };

export type CodesView = { 
/**
 * Word of the family.
 */
family: string, 
/**
 * The family in words.
 */
label: string, 
/**
 * Its books.
 */
books: Array<BookView>, 
/**
 * The book that is worked by; none: every book is held up, and where they differ the answer is "ask locally".
 */
chosen: string | null, 
/**
 * True where the catalog of the firm says it, so that it is not chosen here.
 */
fixed: boolean, };

export type BookView = { 
/**
 * Id.
 */
id: string, 
/**
 * Short name.
 */
title: string, 
/**
 * Document and edition.
 */
document: string, };
