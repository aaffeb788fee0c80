//! What is refused, and that the message says what, where and how to mend it.

use photo::{Looks, Problem, intake, intake_and_place, thumbnail, without_location};

use crate::support::{jpeg, scene};

#[test]
fn other_files_are_refused_by_the_name_of_what_they_are() {
    let cases: [(&[u8], Looks, &str); 5] = [
        (b"GIF89a\x01\0\x01\0", Looks::Gif, "a GIF picture"),
        (b"\0\0\0\x14ftypqt  \0\0\0\0qt  ", Looks::Film, "a film"),
        (b"%PDF-1.7\n", Looks::Pdf, "a PDF document"),
        (b"kitchen, north wall", Looks::Text, "plain text"),
        (b"\x01\x02\x03\x04\x05", Looks::Unknown([1, 2, 3, 4]), "01 02 03 04"),
    ];
    for (bytes, looks, words) in cases {
        let refused = intake(bytes, "IMG_0412").unwrap_err();
        assert_eq!(refused.problem, Problem::NotAPhotograph(looks));
        let text = refused.to_string();
        assert!(text.contains("“IMG_0412”") && text.contains(words) && text.contains("JPEG"), "{text}");
        assert_eq!(thumbnail(bytes, 1, 320).unwrap_err().problem, Problem::NotAPhotograph(looks));
        assert_eq!(without_location(bytes).unwrap_err().problem, Problem::NotAPhotograph(looks));
    }
}

#[test]
fn pictures_of_every_kind_that_stop_in_their_header_are_cut_off() {
    let starts: [&[u8]; 5] = [
        b"\xff\xd8\xff\xe0",
        b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR",
        b"RIFF\x24\0\0\0WEBPVP8",
        b"\0\0\0\x18ftypheic\0\0\0\0mif1heic",
        b"\0\0\0\x1cftypavif\0\0\0\0avifmif1",
    ];
    for bytes in starts {
        for refused in [
            intake(bytes, "cut").unwrap_err(),
            thumbnail(bytes, 1, 320).unwrap_err(),
            intake_and_place(bytes, "cut").unwrap_err(),
        ] {
            assert!(matches!(refused.problem, Problem::CutOff { .. }), "{refused}");
        }
    }
}

#[test]
fn an_empty_file_is_refused_as_empty() {
    let refused = intake(b"", "IMG_0413.jpg").unwrap_err();
    assert_eq!(refused.problem, Problem::Empty);
    assert_eq!(
        refused.to_string(),
        "photograph “IMG_0413.jpg”: the file is empty (0 bytes); copy it again from the camera, or take the photograph again"
    );
}

#[test]
fn a_file_cut_before_its_picture_is_refused_and_one_cut_inside_is_kept_with_a_complaint() {
    let whole = jpeg(&scene(96, 64));
    let scan = whole.windows(2).position(|window| window == [0xff, 0xda]).unwrap();
    let data = scan + 2 + usize::from(whole[scan + 3]);
    for cut in 1..whole.len() {
        let part = &whole[..cut];
        match intake(part, "cut") {
            Err(refused) => {
                assert!(cut < data, "{cut}: {refused}");
                let Problem::CutOff { at, bytes } = refused.problem else { panic!("{cut}: {refused}") };
                assert!(at <= bytes && bytes == cut as u64);
            }
            Ok(kept) => {
                assert!(cut >= data, "{cut}");
                assert_eq!(kept.complaints.len(), 1, "{cut}: {:?}", kept.complaints);
            }
        }
    }
}

#[test]
fn a_bomb_is_refused_by_its_declared_size_before_anything_is_decoded() {
    let mut bomb = jpeg(&scene(96, 64));
    let frame = bomb.windows(2).position(|window| window == [0xff, 0xc0]).unwrap();
    bomb[frame + 5..frame + 9].copy_from_slice(&[0xff, 0xff, 0xff, 0xff]); // 65535 × 65535: 13 GB of pixels
    for refused in [
        intake(&bomb, "bomb").unwrap_err(),
        thumbnail(&bomb, 1, 320).unwrap_err(),
        without_location(&bomb).unwrap_err(),
    ] {
        let Problem::TooManyPixels { at, pixels, limit, .. } = refused.problem else { panic!("{refused}") };
        assert_eq!((at, pixels, limit), (frame as u64, 65_535 * 65_535, photo::MAX_PIXELS));
    }
}

#[test]
fn a_kind_of_jpeg_without_a_decoder_is_kept_without_a_preview() {
    let mut lossless = jpeg(&scene(96, 64));
    let frame = lossless.windows(2).position(|window| window == [0xff, 0xc0]).unwrap();
    lossless[frame + 1] = 0xc3;
    let kept = intake(&lossless, "lossless").unwrap();
    assert!(
        kept.complaints.iter().any(|complaint| complaint.to_string().contains("no preview")),
        "{:?}",
        kept.complaints
    );
    let refused = thumbnail(&lossless, 1, 320).unwrap_err();
    assert!(matches!(refused.problem, Problem::Undecodable { .. }), "{refused}");
}

#[test]
fn a_hostile_name_cannot_break_the_message() {
    let text = intake(b"", &format!("a\u{1b}[31m\n{}", "x".repeat(500))).unwrap_err().to_string();
    assert!(!text.contains('\u{1b}') && !text.contains('\n') && text.len() < 400, "{text}");
}
