//! Pictures drawn here, and a tiny EXIF writer (little-endian; the crate's own writes big-endian).

use image::{Rgb, RgbImage};

/// JPEGs drawn for these tests with Pillow (48 × 32): progressive with a comment, restart markers and 4:2:0,
/// grey, CMYK.
pub(crate) const DRAWN: [(&str, &[u8]); 4] = [
    ("progressive", include_bytes!("vectors/progressive.jpg")),
    ("restarts", include_bytes!("vectors/restarts.jpg")),
    ("grey", include_bytes!("vectors/grey.jpg")),
    ("cmyk", include_bytes!("vectors/cmyk.jpg")),
];

/// A picture in which no turn and no mirror image looks like another.
pub(crate) fn scene(width: u32, height: u32) -> RgbImage {
    RgbImage::from_fn(width, height, |x, y| {
        let (column, row) = (x * 6 / width, y * 4 / height);
        match (column, row) {
            (0 | 1, 0) => Rgb([200, 30, 30]),
            (5, 0 | 1) => Rgb([30, 60, 190]),
            (0, 3) => Rgb([30, 140, 60]),
            (2, 2) => Rgb([20, 20, 20]),
            _ => Rgb([215, 210, 200]),
        }
    })
}

/// The upright picture as a camera stores it under an EXIF orientation. Written from the table of row and column
/// meanings (CIPA DC-008-2019 4.6.4 A): stored row 0 and column 0 are the visual top/left, top/right,
/// bottom/right, bottom/left, left/top, right/top, right/bottom, left/bottom for 1 to 8.
pub(crate) fn stored(upright: &RgbImage, orientation: u8) -> RgbImage {
    let (w, h) = upright.dimensions();
    let (sw, sh) = if orientation >= 5 { (h, w) } else { (w, h) };
    RgbImage::from_fn(sw, sh, |x, y| {
        let (ux, uy) = match orientation {
            1 => (x, y),
            2 => (w - 1 - x, y),
            3 => (w - 1 - x, h - 1 - y),
            4 => (x, h - 1 - y),
            5 => (y, x),
            6 => (w - 1 - y, x),
            7 => (w - 1 - y, h - 1 - x),
            8 => (y, h - 1 - x),
            _ => unreachable!(),
        };
        *upright.get_pixel(ux, uy)
    })
}

/// A baseline JPEG without EXIF.
pub(crate) fn jpeg(picture: &RgbImage) -> Vec<u8> {
    let mut out = Vec::new();
    image::codecs::jpeg::JpegEncoder::new_with_quality(&mut out, 95).encode_image(picture).unwrap();
    out
}

/// One EXIF field: tag, type, count and value bytes.
pub(crate) struct Field(pub(crate) u16, u16, u32, Vec<u8>);

pub(crate) fn ascii(tag: u16, text: &str) -> Field {
    let bytes = [text.as_bytes(), b"\0"].concat();
    Field(tag, 2, bytes.len() as u32, bytes)
}
pub(crate) fn short(tag: u16, value: u16) -> Field {
    Field(tag, 3, 1, value.to_le_bytes().to_vec())
}
pub(crate) fn long(tag: u16, value: u32) -> Field {
    Field(tag, 4, 1, value.to_le_bytes().to_vec())
}
pub(crate) fn rationals(tag: u16, values: &[(u32, u32)]) -> Field {
    let bytes = values.iter().flat_map(|(n, d)| [n.to_le_bytes(), d.to_le_bytes()]).flatten().collect();
    Field(tag, 5, values.len() as u32, bytes)
}
pub(crate) fn bytes(tag: u16, kind: u16, value: &[u8]) -> Field {
    Field(tag, kind, value.len() as u32, value.to_vec())
}

/// The directories of one EXIF block.
#[derive(Default)]
pub(crate) struct Exif {
    pub(crate) main: Vec<Field>,
    pub(crate) exif: Vec<Field>,
    pub(crate) gps: Vec<Field>,
    pub(crate) thumbnail: Option<Vec<u8>>,
}

fn directory(start: usize, fields: &[Field], next: usize) -> Vec<u8> {
    let mut head = (fields.len() as u16).to_le_bytes().to_vec();
    let mut tail = Vec::new();
    let behind = start + 2 + 12 * fields.len() + 4;
    for Field(tag, kind, count, value) in fields {
        head.extend(tag.to_le_bytes());
        head.extend(kind.to_le_bytes());
        head.extend(count.to_le_bytes());
        if value.len() <= 4 {
            let mut inline = value.clone();
            inline.resize(4, 0);
            head.extend(inline);
        } else {
            head.extend(((behind + tail.len()) as u32).to_le_bytes());
            tail.extend(value);
            if tail.len() % 2 == 1 {
                tail.push(0);
            }
        }
    }
    head.extend((next as u32).to_le_bytes());
    head.extend(tail);
    head
}

impl Exif {
    /// The TIFF structure.
    pub(crate) fn tiff(mut self) -> Vec<u8> {
        let size = |fields: &[Field]| directory(0, fields, 0).len();
        if !self.exif.is_empty() {
            self.main.push(long(0x8769, 0));
        }
        if !self.gps.is_empty() {
            self.main.push(long(0x8825, 0));
        }
        self.main.sort_by_key(|field| field.0);
        let exif_at = 8 + size(&self.main);
        let gps_at = exif_at + if self.exif.is_empty() { 0 } else { size(&self.exif) };
        let thumb_at = gps_at + if self.gps.is_empty() { 0 } else { size(&self.gps) };
        for field in &mut self.main {
            match field.0 {
                0x8769 => field.3 = (exif_at as u32).to_le_bytes().to_vec(),
                0x8825 => field.3 = (gps_at as u32).to_le_bytes().to_vec(),
                _ => {}
            }
        }
        let mut out = b"II*\0\x08\0\0\0".to_vec();
        let next = if self.thumbnail.is_some() { thumb_at } else { 0 };
        out.extend(directory(8, &self.main, next));
        if !self.exif.is_empty() {
            out.extend(directory(exif_at, &self.exif, 0));
        }
        if !self.gps.is_empty() {
            out.extend(directory(gps_at, &self.gps, 0));
        }
        if let Some(thumbnail) = self.thumbnail {
            let data_at = (thumb_at + 2 + 12 * 3 + 4) as u32;
            let fields = [short(0x0103, 6), long(0x0201, data_at), long(0x0202, thumbnail.len() as u32)];
            out.extend(directory(thumb_at, &fields, 0));
            out.extend(thumbnail);
        }
        out
    }
}

/// A marker segment.
pub(crate) fn segment(marker: u8, body: &[u8]) -> Vec<u8> {
    let length = u16::try_from(body.len() + 2).unwrap().to_be_bytes();
    [&[0xff, marker], length.as_slice(), body].concat()
}

/// The JPEG with segments put in right behind its start.
pub(crate) fn with_segments(jpeg: &[u8], segments: &[Vec<u8>]) -> Vec<u8> {
    [&jpeg[..2], &segments.concat(), &jpeg[2..]].concat()
}

/// The JPEG with an EXIF block.
pub(crate) fn with_exif(jpeg: &[u8], tiff: &[u8]) -> Vec<u8> {
    with_segments(jpeg, &[segment(0xe1, &[b"Exif\0\0", tiff].concat())])
}

/// Degrees, minutes, seconds of an invented place in the open sea.
pub(crate) fn a_place() -> Vec<Field> {
    vec![
        bytes(0x0000, 1, &[2, 3, 0, 0]),
        ascii(0x0001, "N"),
        rationals(0x0002, &[(31, 1), (17, 1), (55, 10)]),
        ascii(0x0003, "W"),
        rationals(0x0004, &[(41, 1), (2, 1), (0, 1)]),
        bytes(0x0005, 1, &[0]),
        rationals(0x0006, &[(9, 1)]),
    ]
}

/// Orientation, time, offset and part of a second as a phone writes them.
pub(crate) fn dated(orientation: u16) -> Exif {
    Exif {
        main: vec![short(0x0112, orientation)],
        exif: vec![ascii(0x9003, "2026:04:14 09:30:05"), ascii(0x9011, "-05:00"), ascii(0x9291, "120")],
        ..Exif::default()
    }
}

/// A JPEG with everything a camera or a program can hang on: the word SECRET is in every part that must not leave.
pub(crate) fn talkative() -> Vec<u8> {
    let picture = jpeg(&scene(96, 64));
    let small = with_segments(&jpeg(&scene(24, 16)), &[segment(0xfe, b"SECRET in the thumbnail")]);
    let mut exif = dated(6);
    exif.main.extend([
        ascii(0x010e, "SECRET description"),
        ascii(0x010f, "SECRET maker"),
        ascii(0x0110, "SECRET model"),
        ascii(0x013b, "SECRET artist"),
        ascii(0x8298, "SECRET copyright"),
    ]);
    exif.exif.extend([
        bytes(0x927c, 7, b"SECRET maker note, forty bytes of nothing"),
        bytes(0x9286, 7, b"ASCII\0\0\0SECRET user comment"),
        ascii(0xa420, "SECRET image id"),
        ascii(0xa430, "SECRET owner"),
        ascii(0xa431, "SECRET body serial"),
        ascii(0xa435, "SECRET lens serial"),
    ]);
    exif.gps = a_place();
    exif.gps.push(bytes(0x001c, 7, b"ASCII\0\0\0SECRET area"));
    exif.thumbnail = Some(small);
    let xmp = concat!(
        "http://ns.adobe.com/xap/1.0/\0<x:xmpmeta xmlns:x='adobe:ns:meta/'><rdf:RDF ",
        "xmlns:rdf='http://www.w3.org/1999/02/22-rdf-syntax-ns#'><rdf:Description rdf:about='' ",
        "xmlns:exif='http://ns.adobe.com/exif/1.0/' xmlns:aux='http://ns.adobe.com/exif/1.0/aux/' ",
        "exif:GPSLatitude='31,17.1N' exif:GPSLongitude='41,2.0W' aux:SerialNumber='SECRET'/></rdf:RDF></x:xmpmeta>"
    );
    let iptc = b"Photoshop 3.0\x008BIM\x04\x04\0\0\0\0\0\x10\x1c\x02\x5a\0\x0bSECRET town";
    let multi = b"MPF\0MM\0*\0\0\0\x08\0\0SECRET";
    let mut color = b"ICC_PROFILE\0\x01\x01".to_vec();
    color.extend(profile());
    // The encoder's JFIF segment is replaced by one with a thumbnail of 2 × 1 pixels.
    let jfif_end = 4 + usize::from(picture[5]);
    assert_eq!(&picture[2..4], [0xff, 0xe0]);
    let mut out = picture[..2].to_vec();
    out.extend(segment(0xe0, b"JFIF\0\x01\x02\0\0\x01\0\x01\x02\x01SECRET"));
    out.extend(segment(0xe0, b"JFXX\0\x10SECRET"));
    out.extend(segment(0xe1, &[b"Exif\0\0", exif.tiff().as_slice()].concat()));
    out.extend(segment(0xe1, xmp.as_bytes()));
    out.extend(segment(0xe2, &color));
    out.extend(segment(0xe2, multi));
    // A JUMBF box (ISO/IEC 19566-5): instance 1, first packet, 25 bytes. An absurd packet number here makes exiftool
    // 12.57 reserve an array that long.
    out.extend(segment(0xeb, b"JP\0\x01\0\0\0\x01\0\0\0\x19jumbSECRET provenance"));
    out.extend(segment(0xed, iptc));
    out.extend(segment(0xfe, b"SECRET comment"));
    out.extend(&picture[jfif_end..]);
    // A second picture with a place of its own, and something like a film.
    let mut second = dated(1);
    second.gps = a_place();
    out.extend(with_exif(&jpeg(&scene(24, 16)), &second.tiff()));
    out.extend(b"\0\0\0\x18ftypmp42 SECRET film");
    out
}

/// A small ICC profile (ICC.1:2022 7.2 and 7.3): header and a white point, enough to be recognized as one.
fn profile() -> Vec<u8> {
    let mut out = vec![0; 128];
    out[3] = 164;
    out[8..12].copy_from_slice(&[4, 0x40, 0, 0]);
    out[12..24].copy_from_slice(b"mntrRGB XYZ ");
    out[36..40].copy_from_slice(b"acsp");
    out.extend(b"\0\0\0\x01wtpt\0\0\0\x90\0\0\0\x14");
    out.extend(b"XYZ \0\0\0\0\0\0\xf6\xd6\0\x01\0\0\0\0\xd3\x2d"); // D50
    assert_eq!(out.len(), 164);
    out
}

/// Pixels by the decoder the crate itself uses; the picture must decode.
pub(crate) fn pixels(jpeg: &[u8]) -> image::DynamicImage {
    image::load_from_memory_with_format(jpeg, image::ImageFormat::Jpeg).unwrap()
}

/// The JPEG with a color profile, in as many segments as it takes.
pub(crate) fn with_profile(jpeg: &[u8], profile: &[u8]) -> Vec<u8> {
    let parts: Vec<&[u8]> = profile.chunks(60_000).collect();
    let one = |(place, part): (usize, &&[u8])| {
        segment(0xe2, &[b"ICC_PROFILE\0", [place as u8 + 1, parts.len() as u8].as_slice(), part].concat())
    };
    with_segments(jpeg, &parts.iter().enumerate().map(one).collect::<Vec<_>>())
}

/// A PNG, with EXIF in its own chunk.
pub(crate) fn png(picture: &RgbImage, exif: Option<&[u8]>) -> Vec<u8> {
    png_with(picture, &[], exif)
}

/// A PNG with texts: keyword and text; XMP goes into an international one.
pub(crate) fn png_with(picture: &RgbImage, texts: &[(&str, &str)], exif: Option<&[u8]>) -> Vec<u8> {
    let mut info = ::png::Info::with_size(picture.width(), picture.height());
    info.color_type = ::png::ColorType::Rgb;
    info.exif_metadata = exif.map(|exif| exif.to_vec().into());
    let mut out = Vec::new();
    let mut encoder = ::png::Encoder::with_info(&mut out, info).unwrap();
    for (keyword, text) in texts {
        let (keyword, text) = ((*keyword).to_owned(), (*text).to_owned());
        match keyword.starts_with("XML") {
            true => encoder.add_itxt_chunk(keyword, text).unwrap(),
            false => encoder.add_ztxt_chunk(keyword, text).unwrap(),
        }
    }
    let mut writer = encoder.write_header().unwrap();
    writer.write_image_data(picture.as_raw()).unwrap();
    writer.finish().unwrap();
    out
}

/// A lossless WebP, with EXIF in its own chunk.
pub(crate) fn webp(picture: &RgbImage, exif: Option<&[u8]>) -> Vec<u8> {
    let mut out = Vec::new();
    let mut encoder = image_webp::WebPEncoder::new(&mut out);
    if let Some(exif) = exif {
        encoder.set_exif_metadata(exif.to_vec());
    }
    let (width, height) = picture.dimensions();
    encoder.encode(picture.as_raw(), width, height, image_webp::ColorType::Rgb8).unwrap();
    out
}

fn boxed(kind: &[u8; 4], body: &[u8]) -> Vec<u8> {
    [&(body.len() as u32 + 8).to_be_bytes(), kind.as_slice(), body].concat()
}

/// A HEIC container with a primary picture of this size, turned so many quarters by its container, an EXIF item, and
/// no pixels (ISO/IEC 23008-12: pitm, iinf, iprp, iloc).
pub(crate) fn heic(width: u32, height: u32, quarters: u8, tiff: &[u8]) -> Vec<u8> {
    let item = |id: u8, kind: &[u8; 4]| {
        boxed(b"infe", &[&[2, 0, 0, 0, 0, id, 0, 0], kind.as_slice(), b"\0"].concat())
    };
    let size = [&[0; 4], width.to_be_bytes().as_slice(), &height.to_be_bytes()].concat();
    let properties = [boxed(b"ispe", &size), boxed(b"irot", &[quarters])].concat();
    // One association: item 1 has properties 1 and, marked essential, 2.
    let associations = [0, 0, 0, 0, 0, 0, 0, 1, 0, 1, 2, 1, 0x82];
    let head = boxed(b"ftyp", b"heic\0\0\0\0mif1heic");
    let meta = |exif_at: u32| {
        let mut places = vec![0, 0, 0, 0, 0x44, 0, 0, 1, 0, 2, 0, 0, 0, 1]; // offsets and lengths of 4 bytes
        places.extend(exif_at.to_be_bytes());
        places.extend((tiff.len() as u32 + 10).to_be_bytes());
        let parts = [
            vec![0; 4],
            boxed(b"pitm", &[0, 0, 0, 0, 0, 1]),
            boxed(b"iinf", &[vec![0, 0, 0, 0, 0, 2], item(1, b"hvc1"), item(2, b"Exif")].concat()),
            boxed(b"iprp", &[boxed(b"ipco", &properties), boxed(b"ipma", &associations)].concat()),
            boxed(b"iloc", &places),
        ];
        boxed(b"meta", &parts.concat())
    };
    let exif_at = (head.len() + meta(0).len() + 8) as u32;
    let data = boxed(b"mdat", &[&[0, 0, 0, 6], b"Exif\0\0".as_slice(), tiff].concat());
    [head, meta(exif_at), data].concat()
}
