//! `reckon mpe`: the most probable explanation.

use inference::{InferError, mpe};
use serde_json::{Map, Value, json};

use crate::network::{Networks, evidence};
use crate::number;

/// Answers one case: the assignment of the nodes without hard evidence, its log joint probability, whether it
/// is the only one, and the log gap to the second best (null if there is no second).
pub(crate) fn answer(case: &Value, whole: &Value, networks: &mut Networks) -> Result<Value, String> {
    let name = case.get("network").or(whole.get("network")).and_then(Value::as_str);
    let net = networks.get(name)?;
    let evidence = evidence(&net, case)?;
    match mpe(&net, &evidence) {
        Ok(found) => {
            let free = (0..net.len()).filter(|n| evidence.state(*n).is_none());
            let assignment: Map<String, Value> = free
                .map(|n| {
                    let node = &net.nodes()[n];
                    (node.name.clone(), json!(node.states[found.states[n]]))
                })
                .collect();
            Ok(json!({ "impossible": false, "mpe": {
                "assignment": assignment,
                "log_joint": number(found.log_joint),
                "unique": found.unique,
                "log_gap_to_second": found.log_gap_to_second.map(number),
            }}))
        }
        Err(InferError::Impossible { conflict }) => {
            let names: Vec<&str> = conflict.iter().map(|n| net.nodes()[*n].name.as_str()).collect();
            Ok(json!({ "impossible": true, "mpe": null, "conflict": names }))
        }
        Err(other) => Err(other.to_string()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::value::tests::{near, networks, vectors};

    #[test]
    fn reference_explanations_agree() {
        let (mut cases, mut unique, mut impossible) = (0, 0, 0);
        for name in "alarm asia cancer child earthquake house_m house_s insurance sachs survey \
                     t_determ t_islands t_onestate t_single t_underflow t_zero"
            .split_whitespace()
        {
            let file = vectors(&format!("infer_{name}.json"));
            for case in file["cases"].as_array().unwrap() {
                let id = case["id"].as_str().unwrap();
                let ours = answer(case, &file, &mut networks(name)).unwrap();
                assert_eq!(ours["impossible"] == true, case["impossible"] == true, "{id}");
                impossible += usize::from(ours["impossible"] == true);
                let Some(theirs) = case.get("mpe") else { continue };
                let ours = &ours["mpe"];
                near(id, &ours["log_joint"], &theirs["log_joint"], 1e-9);
                if theirs["unique"] == false {
                    assert_eq!(ours["unique"], false, "{id}");
                } else {
                    assert_eq!(ours["assignment"], theirs["assignment"], "{id}");
                }
                if theirs["unique"] == true {
                    assert_eq!(ours["unique"], true, "{id}");
                    near(id, &ours["log_gap_to_second"], &theirs["log_gap_to_second"], 1e-9);
                    unique += 1;
                }
                cases += 1;
            }
        }
        assert!(cases >= 30 && unique >= 25 && impossible == 10, "{cases} {unique} {impossible}");
    }
}
