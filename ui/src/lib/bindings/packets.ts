// Made from crates/views/src/*shape.rs by the test in shape.rs; run it with UPDATE_BINDINGS=1 to write.

export type PacketsView = { 
/**
 * Survey id.
 */
survey: string, 
/**
 * Label.
 */
label: string, 
/**
 * The firm that stands on its pages; none until one is set.
 */
firm: string | null, 
/**
 * The packets, the last one first.
 */
packets: Array<PacketView>, 
/**
 * What is to be known of this device's certificate before sealing: that it runs out soon, or has.
 */
certificate: string | null, 
/**
 * Entries recorded since the last one; with none, all there are.
 */
since: number, 
/**
 * The packet that is being sealed now.
 */
sealing: SealingView | null, };

export type PacketView = { 
/**
 * Its number among the house's packets, from 1.
 */
number: number, 
/**
 * Name of the file.
 */
name: string, 
/**
 * Where it lies.
 */
path: string, 
/**
 * True while it lies there.
 */
there: boolean, 
/**
 * SHA-256 of the file, in hexadecimal.
 */
digest: string, 
/**
 * Its length in bytes.
 */
bytes: number, 
/**
 * Files inside.
 */
files: number, 
/**
 * Photographs inside.
 */
photos: number, 
/**
 * True when it holds pages to read.
 */
pages: boolean, 
/**
 * When it was sealed.
 */
sealedAt: string, 
/**
 * Who of the household signed the page in it.
 */
signedBy: string | null, };

export type SealingView = { 
/**
 * Photographs written.
 */
photosWritten: number, 
/**
 * Photographs in all.
 */
photos: number, 
/**
 * True while the household can sign its page: nothing is written yet.
 */
signs: boolean, 
/**
 * The packet, once it is whole.
 */
packet: PacketView | null, };

export type HandedOverView = { 
/**
 * Where it lies.
 */
path: string, };

export type HouseholdPageView = { 
/**
 * The language of the page, by its tag.
 */
language: string, 
/**
 * Each sheet of it as SVG.
 */
pictures: Array<string>, 
/**
 * The words of each sheet, for whoever does not see the pictures.
 */
texts: Array<string>, 
/**
 * The sentence above the signature.
 */
said: string, 
/**
 * The field that is drawn in: so many points wide.
 */
wide: number, 
/**
 * So many points high.
 */
high: number, };
