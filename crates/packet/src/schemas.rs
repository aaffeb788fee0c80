//! The forms of the packet's JSON as JSON Schemas (2020-12), shipped in every packet. They are the files of
//! `docs/schemas`: one source.

/// Name in the packet, and text.
/// These are in every packet.
pub(crate) const SCHEMAS: [(&str, &str); 3] = [
    ("data/schemas/assessment.schema.json", include_str!("../../../docs/schemas/assessment.schema.json")),
    ("data/schemas/entry.schema.json", include_str!("../../../docs/schemas/entry.schema.json")),
    ("data/schemas/packet.schema.json", include_str!("../../../docs/schemas/packet.schema.json")),
];

/// This one is in the packets a household signed.
pub(crate) const SIGNATURE: (&str, &str) = (
    "data/schemas/household-signature.schema.json",
    include_str!("../../../docs/schemas/household-signature.schema.json"),
);

/// Those of a packet, signed by the household or not.
pub(crate) fn of(signed: bool) -> impl Iterator<Item = (&'static str, &'static str)> {
    SCHEMAS.into_iter().chain(signed.then_some(SIGNATURE))
}

/// Whether this is the name of one.
pub(crate) fn is_schema(name: &str) -> bool {
    of(true).any(|(known, _)| known == name)
}
