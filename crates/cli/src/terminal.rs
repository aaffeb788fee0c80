//! Asking a person at the terminal: on standard error, so that standard output holds results alone.

use std::io::{self, BufRead as _, Write as _};

use actions::{Error, Kind};
use words::msg;

/// Says something and waits for nothing.
pub fn say(text: &str) {
    let mut stderr = io::stderr().lock();
    // A terminal that went away shows itself at the next answer.
    let _ = stderr.write_all(text.as_bytes()).and_then(|()| stderr.flush());
}

/// One line of what is typed; none at the end of the input.
pub fn line() -> Result<Option<String>, Error> {
    say("> ");
    let mut line = Vec::new();
    let read = io::stdin().lock().read_until(b'\n', &mut line);
    let read = read.map_err(|e| Error::new(Kind::Input, msg!("error-input", said = e.to_string())))?;
    Ok((read > 0).then(|| String::from_utf8_lossy(&line).trim().to_owned()))
}
