//! What is said of a photograph on the spot, on real photographs and on the same ones darkened, burnt out, blurred,
//! moved and taken again. `cargo test -p photo looks -- --nocapture` prints the table `docs/photographs.md` shows.

use image::{Rgb, RgbImage, imageops};
use photo::{Look, Warning, previews};

use crate::real::large_pictures;
use crate::support::{jpeg, pixels, scene};

fn look(picture: &RgbImage) -> Look {
    previews(&jpeg(picture), 1).unwrap().look
}

/// Every value times this; what passes white stays white.
fn times(picture: &RgbImage, factor: f64) -> RgbImage {
    let mut out = picture.clone();
    out.pixels_mut().for_each(|p| p.0 = p.0.map(|v| (f64::from(v) * factor).min(255.0) as u8));
    out
}

/// Moved sideways by so many pixels while the shutter was open.
fn moved(picture: &RgbImage, by: u32) -> RgbImage {
    RgbImage::from_fn(picture.width(), picture.height(), |x, y| {
        let mut sum = [0; 3];
        for step in 0..by {
            let near = picture.get_pixel((x + step).min(picture.width() - 1), y).0;
            sum.iter_mut().zip(near).for_each(|(sum, value)| *sum += u32::from(value));
        }
        Rgb(sum.map(|sum| (sum / by) as u8))
    })
}

/// A step to the side: two percent cut off on one side, and a little more light.
fn again(picture: &RgbImage) -> RgbImage {
    let (width, height) = picture.dimensions();
    let cut =
        imageops::crop_imm(picture, width / 50, height / 100, width - width / 50, height - height / 100);
    times(&cut.to_image(), 1.08)
}

#[test]
fn ordinary_photographs_are_let_alone_and_spoiled_ones_are_not() {
    let mut looks = Vec::new();
    let (mut shaken_and_seen, mut shaken_in_all) = (0, 0);
    for (name, bytes) in large_pictures() {
        let kept = photo::intake(&bytes, &name).unwrap();
        let made = previews(&bytes, kept.orientation).unwrap();
        let plain = pixels(&made.screen.jpeg).to_rgb8();
        let soft = look(&imageops::blur(&plain, 4.0));
        let shaken = look(&moved(&plain, 24));
        let (dark, burnt) = (look(&times(&plain, 0.12)), look(&times(&plain, 40.0)));
        let shown = (made.look.light, made.look.white, made.look.sharp);
        let print = made.look.print.unwrap_or_default();
        println!(
            "{name}: {shown:?} {print:016x}; soft {:?}; shaken {:?}; dark {}",
            soft.sharp, shaken.sharp, dark.light
        );
        assert_eq!(made.look.warnings(), [], "{name}");
        assert!(dark.warnings().contains(&Warning::Dark), "{name}: {dark:?}");
        assert!(burnt.warnings().contains(&Warning::Glare), "{name}: {burnt:?}");
        // Where a blurred picture has no edge left, nothing is said rather than something wrong.
        assert_eq!(soft.warnings(), soft.sharp.map(|_| Warning::Blurred).as_slice(), "{name}: {soft:?}");
        if shaken.sharp.is_some() {
            shaken_in_all += 1;
            shaken_and_seen += usize::from(shaken.warnings() == [Warning::Blurred]);
        }
        if made.look.print.is_some() {
            assert!(made.look.alike(&look(&again(&plain))), "{name}");
        }
        looks.push((name, made.look));
    }
    // A picture moved along its only edges keeps them sharp, and is not noticed.
    assert!(looks.len() < 3 || shaken_and_seen * 2 > shaken_in_all, "{shaken_and_seen} of {shaken_in_all}");
    for (place, (name, one)) in looks.iter().enumerate() {
        for (other_name, other) in looks.iter().skip(place + 1) {
            assert!(!one.alike(other), "{name} and {other_name}");
        }
    }
}

#[test]
fn a_plain_wall_is_not_called_blurred_and_a_window_is_called_burnt_out() {
    let wall = look(&RgbImage::from_pixel(1600, 1200, Rgb([190, 185, 170])));
    assert_eq!((wall.sharp, wall.print, wall.warnings()), (None, None, vec![]));
    assert!(!wall.alike(&wall), "two plain walls are not told to be one");
    // Light from one side, with some noise: two such walls are as different as two others.
    let side =
        look(&RgbImage::from_fn(1600, 1200, |x, y| Rgb([(230 - x / 12 + (x * 7 + y * 3) % 5) as u8; 3])));
    assert_eq!(side.print, None);
    let window = look(&RgbImage::from_fn(1600, 1200, |x, _| Rgb([if x < 1000 { 255 } else { 90 }; 3])));
    assert_eq!(window.warnings(), [Warning::Glare]);
    let night = look(&times(&scene(1600, 1200), 0.1));
    assert_eq!(night.warnings(), [Warning::Dark]);
}

#[test]
fn a_picture_turned_by_its_exif_looks_like_the_upright_one() {
    let upright = RgbImage::from_fn(1600, 1200, |x, y| Rgb([((x / 160 * 53 + y / 140 * 91) % 200) as u8; 3]));
    let plain = look(&upright);
    for orientation in 2..=8 {
        let file = jpeg(&crate::support::stored(&upright, orientation));
        assert!(previews(&file, orientation).unwrap().look.alike(&plain), "{orientation}");
    }
}
