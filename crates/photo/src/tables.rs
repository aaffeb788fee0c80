//! Whether a segment that decoding needs is exactly what its marker says, to the last byte (ITU-T T.81 annex B.2).

/// True when the body of this marker's segment has a legal length and layout, with nothing before or behind.
pub(crate) fn well_formed(marker: u8, body: &[u8]) -> bool {
    match marker {
        0xc4 => repeated(body, huffman_table),
        0xcc => repeated(body, |table| place(table).then_some(2)), // arithmetic conditioning
        0xdb => repeated(body, quantization_table),
        0xda => scan_header(body),
        0xdc | 0xdd => body.len() == 2, // number of lines, restart interval
        0xdf => body.len() == 1,        // expansion of a reference picture
        // Frame headers and the hierarchical one: six bytes, then three for each component.
        0xc0..=0xc3 | 0xc5..=0xc7 | 0xc9..=0xcb | 0xcd..=0xcf | 0xde => {
            body.get(5).is_some_and(|&count| body.len() == 6 + 3 * usize::from(count))
        }
        _ => false,
    }
}

/// One or more tables, each as long as `length` reads from its beginning.
fn repeated(mut body: &[u8], length: impl Fn(&[u8]) -> Option<usize>) -> bool {
    let mut any = false;
    while !body.is_empty() {
        let Some(rest) = length(body).and_then(|length| body.get(length..)) else { return false };
        body = rest;
        any = true;
    }
    any
}

/// One byte of class and place, sixteen counts, then that many symbols.
fn huffman_table(body: &[u8]) -> Option<usize> {
    let counts = body.get(1..17).filter(|_| place(body))?;
    let symbols: usize = counts.iter().map(|&count| usize::from(count)).sum();
    (symbols <= 256).then_some(17 + symbols)
}

/// Whether the first byte names a class (0 or 1) and one of four places.
fn place(table: &[u8]) -> bool {
    table.first().is_some_and(|byte| byte >> 4 <= 1 && byte & 0x0f <= 3)
}

/// One byte of precision (class) and place, then 64 values of one or two bytes.
fn quantization_table(body: &[u8]) -> Option<usize> {
    let first = body.first().filter(|_| place(body))?;
    Some(if first >> 4 == 0 { 65 } else { 129 })
}

/// A count of components, two bytes for each, and three bytes of spectral selection and approximation.
fn scan_header(body: &[u8]) -> bool {
    body.first().is_some_and(|&count| (1..=4).contains(&count) && body.len() == 4 + 2 * usize::from(count))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tables_with_a_byte_too_many_or_too_few_are_not_tables() {
        let mut huffman = vec![0x10, 0, 2, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0];
        huffman.extend([7, 8, 9]);
        let two = [huffman.clone(), huffman.clone()].concat();
        let legal: [(u8, Vec<u8>); 7] = [
            (0xc4, huffman),
            (0xc4, two),
            (0xdb, vec![1; 65]),
            (0xdb, vec![0x10; 129]),
            (0xdd, vec![0, 4]),
            (0xc0, vec![8, 0, 9, 0, 9, 1, 1, 0x11, 0]),
            (0xda, vec![1, 1, 0, 0, 63, 0]),
        ];
        for (marker, mut body) in legal {
            assert!(well_formed(marker, &body), "{marker:x}");
            body.push(0);
            assert!(!well_formed(marker, &body), "{marker:x} and a byte");
            body.truncate(body.len() - 2);
            assert!(!well_formed(marker, &body), "{marker:x} less a byte");
        }
        assert!(!well_formed(0xcc, b"SECRET") && well_formed(0xcc, &[0x11, 5]));
        assert!(!well_formed(0xc8, &[0; 9]) && !well_formed(0xdb, &[]) && !well_formed(0xf0, &[]));
    }
}
