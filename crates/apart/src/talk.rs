//! What the two processes say: a line of JSON, then the bytes it announces. The reader trusts neither.

use std::io::{self, BufRead, Read, Write};

use serde::{Deserialize, Serialize};
use survey::said::Message;

/// Longest line.
const MOST_LINE: u64 = 8 << 10;
/// Largest picture: a screen's JPEG has 1600 pixels a side at most.
const MOST_PICTURE: u64 = 16 << 20;
/// What the ids of messages about photographs begin with.
const ABOUT: &str = "photo-";

/// Pictures of a photograph, as JPEG.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Made {
    /// 1600 pixels at most.
    pub screen: Vec<u8>,
    /// 320 pixels at most.
    pub list: Vec<u8>,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
enum Head {
    Made { screen: u64, list: u64 },
    Refused(Message),
}

pub(crate) fn write(out: &mut impl Write, made: Result<&Made, Message>) -> io::Result<()> {
    let head = match &made {
        Ok(made) => Head::Made { screen: made.screen.len() as u64, list: made.list.len() as u64 },
        Err(said) => Head::Refused(said.clone()),
    };
    serde_json::to_writer(&mut *out, &head)?;
    out.write_all(b"\n")?;
    if let Ok(made) = made {
        out.write_all(&made.screen)?;
        out.write_all(&made.list)?;
    }
    Ok(())
}

/// `None`: it is no answer of such a process.
pub(crate) fn read(from: &mut impl BufRead) -> Option<Result<Made, Message>> {
    let mut line = Vec::new();
    from.by_ref().take(MOST_LINE).read_until(b'\n', &mut line).ok()?;
    match serde_json::from_slice(line.strip_suffix(b"\n")?).ok()? {
        Head::Refused(said) => said.id.starts_with(ABOUT).then_some(Err(said)),
        Head::Made { screen, list } => {
            let made = Made { screen: picture(from, screen)?, list: picture(from, list)? };
            let over = from.read(&mut [0]).ok()?;
            (over == 0).then_some(Ok(made))
        }
    }
}

/// Bytes of an announced length that begin as a JPEG does.
fn picture(from: &mut impl Read, length: u64) -> Option<Vec<u8>> {
    let mut bytes = Vec::new();
    let read = from.take(length.min(MOST_PICTURE)).read_to_end(&mut bytes).ok()?;
    (read as u64 == length && bytes.starts_with(b"\xff\xd8\xff")).then_some(bytes)
}

#[cfg(test)]
mod tests {
    use survey::msg;

    use super::*;

    fn written(made: Result<&Made, Message>) -> Vec<u8> {
        let mut out = Vec::new();
        write(&mut out, made).unwrap();
        out
    }

    fn made() -> Made {
        Made { screen: b"\xff\xd8\xff screen".to_vec(), list: b"\xff\xd8\xff list".to_vec() }
    }

    #[test]
    fn what_is_written_is_read() {
        assert_eq!(read(&mut &written(Ok(&made()))[..]), Some(Ok(made())));
        let said = msg!("photo-problem-empty");
        assert_eq!(read(&mut &written(Err(said.clone()))[..]), Some(Err(said)));
    }

    #[test]
    fn an_answer_that_is_cut_or_goes_on_or_is_none_counts_for_nothing() {
        let whole = written(Ok(&made()));
        for end in 0..whole.len() {
            assert_eq!(read(&mut &whole[..end]), None, "cut at {end}");
        }
        let mut longer = whole;
        longer.push(0);
        assert_eq!(read(&mut &longer[..]), None);
        for text in [
            "",
            "\n",
            "{\"made\":{\"screen\":0,\"list\":0}}\n",
            "{\"made\":{\"screen\":18446744073709551615,\"list\":1}}\n",
            "{\"made\":{\"screen\":4,\"list\":4}}\n<svg<svg",
            "{\"refused\":{\"id\":\"office-unlocked\"}}\n",
            "{\"refused\":{\"id\":\"photo-problem-empty\"},\"more\":1}\n",
        ] {
            assert_eq!(read(&mut text.as_bytes()), None, "{text}");
        }
        let long = format!("{{\"refused\":{{\"id\":\"photo-{}\"}}}}\n", "a".repeat(9000));
        assert_eq!(read(&mut long.as_bytes()), None);
    }
}
