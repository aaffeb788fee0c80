//! `reckon weight`: weights of evidence.

use inference::{NodeId, weights};
use serde_json::{Map, Value, json};

use crate::network::{Networks, evidence};
use crate::number;
use crate::value::{node, sentence, text};

/// Answers one case: the findings of `evidence` {node: state, or likelihood of each state}, weighed in `order`
/// for `target` being in `state`; findings that `order` leaves out are taken as given.
pub(crate) fn answer(case: &Value, whole: &Value, networks: &mut Networks) -> Result<Value, String> {
    let name = case.get("network").or(whole.get("network")).and_then(Value::as_str);
    let net = networks.get(name)?;
    let findings = case.get("evidence").and_then(Value::as_object).ok_or("the case has no “evidence”")?;
    let (soft, hard): (Map<String, Value>, Map<String, Value>) =
        findings.clone().into_iter().partition(|(_, v)| v.is_array());
    let evidence = evidence(&net, &json!({ "hard": hard, "soft": soft }))?;
    let target = node(&net, text(case, "target")?)?;
    let wanted = text(case, "state")?;
    let state = net.state(target, wanted).ok_or_else(|| {
        let node = &net.nodes()[target];
        format!("“{}” has no state “{wanted}”; it has {}", node.name, node.states.join(", "))
    })?;
    let order: Vec<NodeId> = match case.get("order") {
        None | Some(Value::Null) => evidence.nodes(),
        Some(order) => order
            .as_array()
            .ok_or("“order” is not a list")?
            .iter()
            .map(|n| n.as_str().ok_or("a place in “order” is not a name".to_owned()))
            .map(|n| n.and_then(|n| node(&net, n)))
            .collect::<Result<_, _>>()?,
    };
    let found = weights(&net, &evidence, target, state, &order).map_err(|e| sentence(&net, &e))?;
    let list = |list: &[Option<f64>]| list.iter().map(|w| w.map(number)).collect::<Vec<_>>();
    Ok(json!({
        "prior": number(found.prior),
        "posterior": number(found.posterior),
        "woe_total_nats": found.total.map(number),
        "woe_sequential": list(&found.sequential),
        "woe_leave_one_out": list(&found.leave_one_out),
        "woe_alone": list(&found.alone),
    }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::value::tests::{near, networks, vectors};

    #[test]
    fn reference_weights_of_evidence_agree() {
        let file = vectors("woe.json");
        let tolerance = file["tolerance_abs"].as_f64().unwrap();
        let cases = file["cases"].as_array().unwrap();
        assert!(cases.len() >= 26);
        for case in cases {
            let id = case["id"].as_str().unwrap();
            let ours = answer(case, &file, &mut networks(case["network"].as_str().unwrap())).unwrap();
            for key in
                ["prior", "posterior", "woe_total_nats", "woe_sequential", "woe_leave_one_out", "woe_alone"]
            {
                near(&format!("{id} {key}"), &ours[key], &case[key], tolerance);
            }
        }
    }

    #[test]
    fn what_cannot_be_weighed_is_said_by_name() {
        let mut case = json!({ "network": "asia", "target": "lung", "state": "yes",
            "evidence": { "smoke": "yes" }, "order": ["smoke", "xray"] });
        let ask = |case: &Value| answer(case, &Value::Null, &mut networks("asia"));
        assert!(ask(&case).unwrap_err().starts_with("“xray” is to be weighed but"));
        case["order"] = Value::Null;
        assert_eq!(ask(&case).unwrap()["woe_alone"].as_array().unwrap().len(), 1);
        case["state"] = json!("maybe");
        assert_eq!(ask(&case).unwrap_err(), "“lung” has no state “maybe”; it has yes, no");
    }
}
