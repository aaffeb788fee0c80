//! `reckon posterior`: every posterior and the probability of the evidence.

use inference::{InferError, posterior};
use serde_json::{Map, Value, json};

use crate::network::{Networks, evidence};
use crate::number;

/// Answers one case.
pub(crate) fn answer(
    case: &Value,
    whole_network: Option<&str>,
    networks: &mut Networks,
) -> Result<Value, String> {
    let name = case.get("network").and_then(Value::as_str).or(whole_network);
    let net = networks.get(name)?;
    let evidence = evidence(&net, case)?;
    match posterior(&net, &evidence) {
        Ok(found) => {
            let free = (0..net.len()).filter(|n| evidence.state(*n).is_none());
            let posteriors: Map<String, Value> = free
                .map(|n| {
                    let list: Vec<Value> = found.of(n).iter().map(|p| number(*p)).collect();
                    (net.nodes()[n].name.clone(), Value::Array(list))
                })
                .collect();
            Ok(json!({
                "log_p_evidence": number(found.log_p_evidence),
                "impossible": false,
                "posterior": posteriors,
            }))
        }
        Err(InferError::Impossible { conflict }) => {
            let names: Vec<&str> = conflict.iter().map(|n| net.nodes()[*n].name.as_str()).collect();
            Ok(json!({ "log_p_evidence": null, "impossible": true, "posterior": null, "conflict": names }))
        }
        Err(other) => Err(other.to_string()),
    }
}
