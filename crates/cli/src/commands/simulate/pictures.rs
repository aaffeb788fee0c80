//! Invented photographs for invented houses: a drawn wall with an opening, a shelf and a tape, no two alike. They load a
//! device as real ones do; there is nothing to be seen in them.

use actions::{Desk, Error, Kind, Kit, import_photo};
use imagine::SimulatedHouse;
use jpeg_encoder::{ColorType, Encoder};
use rand_chacha::ChaCha8Rng;
use rand_core::{Rng as _, SeedableRng as _};
use survey::{Digest, SurveyId};

/// Pixels across and down.
const SIZE: (u16, u16) = (640, 480);
const QUALITY: u8 = 80;

/// Takes `many` drawn photographs in for the items of the house's walk, one after the other and round again.
pub(super) fn take(
    desk: &mut Desk,
    house: &SimulatedHouse,
    survey: SurveyId,
    many: u64,
    kit: &mut Kit<'_>,
) -> Result<(), Error> {
    let mut items = house.walk.iter().map(super::device::asked_at).cycle();
    for n in 1..=many {
        let jpeg = drawn(house, n)?;
        import_photo(
            desk,
            survey,
            items.next().as_deref(),
            &format!("invented-{n:04}.jpg"),
            &jpeg,
            None,
            kit,
        )?;
    }
    Ok(())
}

/// The same house and number give the same bytes.
fn drawn(house: &SimulatedHouse, n: u64) -> Result<Vec<u8>, Error> {
    let words = format!("underlath simulate|{}|{}|picture {n}", house.seed, house.number);
    let mut random = ChaCha8Rng::from_seed(*Digest::of(words.as_bytes()).as_bytes());
    let mut below = |most: u32| random.next_u32() % most;
    let wall = [150 + below(80), 150 + below(80), 140 + below(70)];
    let (width, height) = (u32::from(SIZE.0), u32::from(SIZE.1));
    // Left, top, right, bottom and how much darker, in hundredths: an opening, a shelf, and what stands before them.
    let boxes: Vec<[u32; 5]> = (0..4)
        .map(|_| {
            let (left, top) = (below(width - 80), below(height - 60));
            [left, top, left + 40 + below(width / 2), top + 20 + below(height / 2), 30 + below(60)]
        })
        .collect();
    let tape = 20 + below(height - 60);
    let mut pixels = Vec::with_capacity((width * height * 3) as usize);
    for y in 0..height {
        for x in 0..width {
            let shade = boxes
                .iter()
                .filter(|[left, top, right, bottom, _]| {
                    (*left..*right).contains(&x) && (*top..*bottom).contains(&y)
                })
                .fold(100, |shade, [.., darker]| shade * darker / 100);
            let light = 100 - 30 * x / width;
            let marked = (tape..tape + 14).contains(&y);
            for part in wall {
                let value = match marked {
                    true if x % 16 < 2 => 30,
                    true => 240,
                    false => part * shade * light / 10_000,
                };
                pixels.push(u8::try_from(value).unwrap_or(u8::MAX));
            }
        }
    }
    let mut jpeg = Vec::new();
    Encoder::new(&mut jpeg, QUALITY)
        .encode(&pixels, SIZE.0, SIZE.1, ColorType::Rgb)
        .map_err(|e| Error::new(Kind::Internal, e.to_string()))?;
    Ok(jpeg)
}
