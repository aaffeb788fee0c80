//! Numbers and lists out of a case.

use ::trade::pert::Pert;
use serde_json::{Map, Value};

use crate::number;

/// The list under `key`, each entry read by `entry`; `what` says what an entry must be.
pub(crate) fn list<T>(
    from: &Value,
    key: &str,
    what: &str,
    entry: impl Fn(&Value) -> Option<T>,
) -> Result<Vec<T>, String> {
    let found = from.get(key).and_then(Value::as_array).ok_or_else(|| format!("“{key}” is not a list"))?;
    let each = found.iter().enumerate();
    each.map(|(i, v)| entry(v).ok_or_else(|| format!("entry {} of “{key}” is not {what}", i + 1))).collect()
}

/// A list of numbers.
pub(crate) fn numbers(from: &Value, key: &str) -> Result<Vec<f64>, String> {
    list(from, key, "a number", Value::as_f64)
}

/// One number.
pub(crate) fn one(from: &Value, key: &str) -> Result<f64, String> {
    from.get(key).and_then(Value::as_f64).ok_or_else(|| format!("“{key}” is not a number"))
}

/// A three-point estimate [low, likely, high].
pub(crate) fn estimate(value: &Value) -> Result<Pert, String> {
    let three: Option<Vec<f64>> = value.as_array().and_then(|l| l.iter().map(Value::as_f64).collect());
    match three.as_deref() {
        Some([low, likely, high]) => Pert::new(*low, *likely, *high).map_err(|e| e.to_string()),
        _ => Err("“pert” is not [low, likely, high]".to_owned()),
    }
}

/// Numbers as JSON.
pub(crate) fn array(list: impl IntoIterator<Item = f64>) -> Value {
    list.into_iter().map(number).collect()
}

/// A number, or null where it is undefined.
pub(crate) fn maybe(x: Option<f64>) -> Value {
    x.map_or(Value::Null, number)
}

/// An object from keys and values.
pub(crate) fn object<K: Into<String>>(entries: impl IntoIterator<Item = (K, Value)>) -> Value {
    Value::Object(entries.into_iter().map(|(k, v)| (k.into(), v)).collect::<Map<_, _>>())
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;

    /// A file of reference results.
    pub(crate) fn vectors(name: &str) -> Value {
        let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/vectors").join(name);
        serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
    }

    /// Compares answers with reference results number by number.
    pub(crate) struct Agreement {
        tolerance: f64,
        relative: bool,
        compared: usize,
    }

    impl Agreement {
        pub(crate) fn absolute(tolerance: f64) -> Self {
            Self { tolerance, relative: false, compared: 0 }
        }
        pub(crate) fn relative(tolerance: f64) -> Self {
            Self { relative: true, ..Self::absolute(tolerance) }
        }
        /// Every one of these keys of `expected` is in `got`, and the same.
        pub(crate) fn contains(&mut self, at: &str, got: &Value, expected: &Value, keys: &[&str]) {
            for key in keys {
                let wanted = expected.get(key).unwrap_or_else(|| panic!("{at} has no {key}"));
                let found = got.get(key).unwrap_or_else(|| panic!("{at}: no {key} answered"));
                self.same(&format!("{at} {key}"), found, wanted);
            }
        }
        pub(crate) fn same(&mut self, at: &str, got: &Value, expected: &Value) {
            match (got, expected) {
                (Value::Array(g), Value::Array(e)) => {
                    assert_eq!(g.len(), e.len(), "{at}");
                    for (i, (g, e)) in g.iter().zip(e).enumerate() {
                        self.same(&format!("{at} {i}"), g, e);
                    }
                }
                (Value::Object(g), Value::Object(e)) => {
                    assert_eq!(g.keys().collect::<Vec<_>>(), e.keys().collect::<Vec<_>>(), "{at}");
                    for (key, e) in e {
                        self.same(&format!("{at} {key}"), &g[key], e);
                    }
                }
                (Value::Number(g), Value::Number(e)) => {
                    let (g, e) = (g.as_f64().unwrap(), e.as_f64().unwrap());
                    // A relative tolerance is taken of 1 where the reference is smaller: amounts are dollars.
                    let scale = if self.relative { e.abs().max(1.0) } else { 1.0 };
                    let off = (g - e).abs() / scale;
                    assert!(off <= self.tolerance, "{at}: {g} is not {e}");
                    self.compared += 1;
                }
                _ => assert_eq!(got, expected, "{at}"),
            }
        }
        /// Something was compared at all.
        pub(crate) fn end(&self, at_least: usize) {
            assert!(self.compared >= at_least, "only {} numbers compared", self.compared);
        }
    }
}
