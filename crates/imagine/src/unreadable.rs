//! What is wrong with a text that cannot be read, in one line.

/// "line 3: …", from the parser's complaint.
pub(crate) fn complaint(text: &str, error: &toml::de::Error) -> String {
    let message = error.message().lines().collect::<Vec<_>>().join(" ");
    match error.span().and_then(|span| text.get(..span.start)) {
        Some(before) => format!("line {}: {message}", before.matches('\n').count() + 1),
        None => message,
    }
}
