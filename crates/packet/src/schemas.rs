//! The forms of the packet's JSON as JSON Schemas (2020-12), shipped in every packet. They are the files of
//! `docs/schemas`: one source.

/// Name in the packet, and text.
pub(crate) const SCHEMAS: [(&str, &str); 3] = [
    ("data/schemas/assessment.schema.json", include_str!("../../../docs/schemas/assessment.schema.json")),
    ("data/schemas/entry.schema.json", include_str!("../../../docs/schemas/entry.schema.json")),
    ("data/schemas/packet.schema.json", include_str!("../../../docs/schemas/packet.schema.json")),
];

/// Whether this is the name of one.
pub(crate) fn is_schema(name: &str) -> bool {
    SCHEMAS.iter().any(|(known, _)| *known == name)
}
