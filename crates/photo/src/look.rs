//! What can be told of a picture at once, while it can still be taken again: too dark, too bright, blurred, taken
//! already.
//!
//! Own measures, because each is a few lines on a picture that is decoded anyway. The thresholds are judgment, set on
//! real photographs and on the same photographs darkened, brightened and blurred (`docs/photographs.md` shows what was
//! found); they are set so that an ordinary photograph is let alone. Integers only.

use serde::{Deserialize, Serialize};

use crate::pixels::Pixels;

/// What was seen of a picture.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Look {
    /// 64 bits that say where it gets brighter from left to right; pictures alike differ in few of them. None where the
    /// picture is too even to be told from another, as of a plain wall, also where light falls on it from one side.
    pub print: Option<u64>,
    /// Brightness that one tenth of the picture passes, 0 to 255.
    pub light: u8,
    /// How much of it is burnt out to white, in thousandths.
    pub white: u16,
    /// How steep its edges are where there are any: 250 is washed out over four pixels or more, 1000 changes from one
    /// pixel to the next. None where nothing has an edge, as on a plain wall.
    pub sharp: Option<u16>,
}

/// Why a photograph may have to be taken again.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Warning {
    /// Too dark to read a tape in it.
    Dark,
    /// Burnt out: a flash or a window leaves nothing to see.
    Glare,
    /// Moved or out of focus.
    Blurred,
}

/// Below this brightness of its brightest tenth a picture is dark.
const DARK: u8 = 56;
/// Above this share of white (thousandths) a picture is burnt out.
const GLARE: u16 = 500;
/// Below this steepness a picture is blurred.
const BLURRED: u16 = 365;
/// Prints that differ in at most so many bits are of pictures alike.
const ALIKE: u32 = 8;
/// Only pictures at least this long are judged for sharpness; smaller ones were made smaller by somebody.
const LEAST_SIDE: u32 = 800;

/// Brightness of every pixel (ITU-R BT.601, in 256ths).
fn grey(picture: &Pixels) -> Vec<u8> {
    let pixels = picture.rgb.chunks_exact(3);
    pixels
        .map(|p| ((77 * u32::from(p[0]) + 150 * u32::from(p[1]) + 29 * u32::from(p[2])) >> 8) as u8)
        .collect()
}

/// Looks at a picture as large as a screen and at the same one as small as in a list.
pub(crate) fn look(screen: &Pixels, list: &Pixels) -> Look {
    let small = grey(list);
    let mut counts = [0_usize; 256];
    for &value in &small {
        counts[usize::from(value)] += 1;
    }
    let mut above = small.len() / 10;
    let light = (0..=255_u8).rev().find(|&value| {
        let here = counts[usize::from(value)];
        let reached = above < here;
        above = above.saturating_sub(here);
        reached
    });
    let white: usize = counts[252..].iter().sum();
    let long = screen.width.max(screen.height);
    Look {
        print: print(&small, list.width as usize, list.height as usize),
        light: light.unwrap_or_default(),
        white: (white * 1000 / small.len().max(1)) as u16, // at most 1000
        sharp: (long >= LEAST_SIDE).then(|| sharp(screen)).flatten(),
    }
}

/// How much brighter the next block must be, in 256ths of a level: noise is less.
const BRIGHTER: u64 = 2 * 256;
/// How many of the 64 neighbors must differ by that for a print to mean anything.
const TELLING: u32 = 24;

/// Eight rows of eight signs: is the next of nine blocks in the row brighter?
fn print(grey: &[u8], width: usize, height: usize) -> Option<u64> {
    let mean = |column: usize, row: usize| -> u64 {
        let across = |n: usize, parts: usize, side: usize| {
            let from = n * side / parts;
            from..((n + 1) * side / parts).max(from + 1).min(side.max(from + 1))
        };
        let (rows, columns) = (across(row, 8, height), across(column, 9, width));
        let count = (rows.len() * columns.len()).max(1) as u64;
        let lines = rows.filter_map(|row| grey.get(row * width..(row + 1) * width));
        let total: u64 =
            lines.flat_map(|l| l.get(columns.clone()).unwrap_or_default()).map(|&v| u64::from(v)).sum();
        total * 256 / count
    };
    let (mut bits, mut telling, mut brighter) = (0_u64, 0, 0);
    for row in 0..8 {
        let means: Vec<u64> = (0..9).map(|column| mean(column, row)).collect();
        for pair in means.windows(2) {
            bits = bits << 1 | u64::from(pair[1] > pair[0] + BRIGHTER);
            telling += u32::from(pair[1].abs_diff(pair[0]) > BRIGHTER);
            brighter += u32::from(pair[1] > pair[0] + BRIGHTER);
        }
    }
    // Light that only falls off to one side, as on a wall beside a window, is the same in very different pictures.
    let darker = telling - brighter;
    (telling >= TELLING && brighter > ALIKE && darker > ALIKE).then_some(bits)
}

/// How far apart the ends of an edge are looked for, in pixels.
const SPAN: usize = 4;
/// What counts as an edge; well above the noise of a small sensor in poor light.
const STEP: u8 = 32;
/// Edges that must be there before anything is said, in thousandths of the pixels.
const FEW: usize = 2;

/// The steepness that one edge in ten passes, along rows or columns, whichever is worse: a moved camera blurs one way.
fn sharp(picture: &Pixels) -> Option<u16> {
    let (width, height) = (picture.width as usize, picture.height as usize);
    let grey = grey(picture);
    let along = steepness(&grey, width, height, 1, width);
    let down = steepness(&grey, height, width, width, 1);
    match (along, down) {
        (Some(along), Some(down)) => Some(along.min(down)),
        (one, other) => one.or(other),
    }
}

/// `length` pixels in a line `step` apart, `lines` of them `next` apart.
fn steepness(grey: &[u8], length: usize, lines: usize, step: usize, next: usize) -> Option<u16> {
    let mut counts = [0_usize; 1001];
    let mut edges = 0;
    for line in 0..lines {
        let at = |place: usize| grey.get(line * next + place * step).copied().unwrap_or_default();
        for place in 0..length.saturating_sub(SPAN) {
            let whole = at(place).abs_diff(at(place + SPAN));
            if whole < STEP {
                continue;
            }
            let most = (0..SPAN).map(|n| at(place + n).abs_diff(at(place + n + 1))).max().unwrap_or_default();
            let share = usize::from(most) * 1000 / usize::from(whole);
            counts[share.min(1000)] += 1;
            edges += 1;
        }
    }
    if edges * 1000 < length * lines * FEW {
        return None;
    }
    let mut above = edges / 10;
    (0..=1000_u16).rev().find(|&share| {
        let here = counts[usize::from(share)];
        let reached = above < here;
        above = above.saturating_sub(here);
        reached
    })
}

impl Look {
    /// What may be a reason to take it again.
    pub fn warnings(&self) -> Vec<Warning> {
        let mut out = Vec::new();
        if self.light < DARK {
            out.push(Warning::Dark);
        }
        if self.white > GLARE {
            out.push(Warning::Glare);
        }
        // In the dark there is nothing to be sharp.
        if self.light >= DARK && self.sharp.is_some_and(|sharp| sharp < BLURRED) {
            out.push(Warning::Blurred);
        }
        out
    }

    /// Whether two pictures look like one taken twice.
    pub fn alike(&self, other: &Self) -> bool {
        match (self.print, other.print) {
            (Some(one), Some(other)) => (one ^ other).count_ones() <= ALIKE,
            _ => false,
        }
    }
}
