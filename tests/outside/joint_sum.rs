//! Joint draws against exact sums over dependent conditions (reference: enumeration over P(targets | e) by an
//! independent variable elimination; PERT moments in closed form).

use inference::{Evidence, Network, NetworkBuilder, sampler};
use rand_chacha::ChaCha8Rng;
use rand_core::SeedableRng as _;
use serde_json::Value;

use assessment::Pert;
use assessment::simulate::{Item, run};
use survey::catalog::Stage;

use crate::support::{root, vectors};

fn network(name: &str) -> Network {
    let mut found = Vec::new();
    crate::house_rules::files(&root().join("tests/vectors/inference"), &["json"], &mut found);
    let path =
        found.into_iter().find(|p| p.file_name().unwrap().to_str() == Some(&format!("{name}.json"))).unwrap();
    let json: Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    let mut builder = NetworkBuilder::new();
    let nodes = json["nodes"].as_array().unwrap();
    let text = |v: &Value| v.as_str().unwrap().to_owned();
    let ids: Vec<usize> = nodes
        .iter()
        .map(|n| {
            let states: Vec<String> = n["states"].as_array().unwrap().iter().map(text).collect();
            builder.node(text(&n["name"]), &states).unwrap()
        })
        .collect();
    let names: Vec<String> = nodes.iter().map(|n| text(&n["name"])).collect();
    for (id, n) in ids.iter().zip(nodes) {
        let parents: Vec<usize> = n["parents"]
            .as_array()
            .unwrap()
            .iter()
            .map(|p| names.iter().position(|x| x == p.as_str().unwrap()).unwrap())
            .collect();
        let rows = n["cpt"]
            .as_array()
            .unwrap()
            .iter()
            .flat_map(|r| r.as_array().unwrap().iter().map(|x| x.as_f64().unwrap()));
        builder.table(*id, &parents, rows.collect()).unwrap();
    }
    builder.build().unwrap()
}

#[test]
fn sampled_sums_have_the_exact_moments_of_dependent_conditions() {
    let file = vectors("assessment/joint_sum.json");
    let cases = file["cases"].as_array().unwrap();
    assert!(cases.len() >= 5);
    let list =
        |v: &Value| -> Vec<f64> { v.as_array().unwrap().iter().map(|x| x.as_f64().unwrap()).collect() };
    let mut atoms = 0;
    for case in cases {
        let net = network(case["network"].as_str().unwrap());
        let mut evidence = Evidence::new();
        for (node, state) in case["hard"].as_object().unwrap() {
            let id = net.find(node).unwrap();
            evidence.observe(id, net.state(id, state.as_str().unwrap()).unwrap());
        }
        let targets: Vec<usize> = case["targets"]
            .as_array()
            .unwrap()
            .iter()
            .map(|t| net.find(t.as_str().unwrap()).unwrap())
            .collect();
        let perts: Vec<Pert> = case["pert"]
            .as_array()
            .unwrap()
            .iter()
            .map(|p| {
                let p = list(p);
                Pert::new(p[0], p[1], p[2]).unwrap()
            })
            .collect();
        let joint = sampler(&net, &evidence, &targets).unwrap();
        let draws = 40_000;
        let simulated = |costs: &[Pert]| {
            let items: Vec<Item> = costs.iter().zip(1..).map(|(cost, stream)| item(stream, *cost)).collect();
            let mut rng = ChaCha8Rng::seed_from_u64(20_26);
            let mut states = vec![0u16; targets.len()];
            let (mut counts, mut none) = (vec![0u32; targets.len()], 0u32);
            let sample = |present: &mut [bool]| {
                joint.draw(&mut rng, &mut states);
                present.iter_mut().zip(&states).for_each(|(p, s)| *p = *s == 1);
                counts.iter_mut().zip(&*present).for_each(|(c, p)| *c += u32::from(*p));
                none += u32::from(present.iter().all(|p| !p));
            };
            let outcome = run(&items, draws, 5, sample, || true).unwrap();
            (outcome, counts, none)
        };
        let (outcome, counts, none) = simulated(&perts);
        let sums = &outcome.sorted_money;
        let fixed: Vec<Pert> = list(&case["fixed_cost"]).into_iter().map(Pert::fixed).collect();
        let (fixed, _, _) = simulated(&fixed);
        let n = f64::from(draws);
        // Five standard errors everywhere.
        let share = |count: u32, p: f64, at: &str| {
            let se = (p * (1.0 - p) / n).sqrt();
            assert!((f64::from(count) / n - p).abs() <= 5.0 * se + 1e-9, "{} {at}: {count} {p}", case["id"]);
        };
        for (count, p) in counts.iter().zip(list(&case["p_yes"])) {
            share(*count, p, "P(yes)");
        }
        share(none, case["all_no_probability"].as_f64().unwrap(), "none");
        let (mean, variance) = (case["pert_mean"].as_f64().unwrap(), case["pert_variance"].as_f64().unwrap());
        let got_mean = sums.iter().sum::<f64>() / n;
        let got_variance = sums.iter().map(|s| (s - got_mean) * (s - got_mean)).sum::<f64>() / n;
        assert!(
            (got_mean - mean).abs() < 5.0 * (variance / n).sqrt(),
            "{} mean {got_mean} {mean}",
            case["id"]
        );
        // The variance of a variance of 40,000 draws: within 4 %; independence would be off by more where it matters.
        assert!(
            (got_variance / variance - 1.0).abs() < 0.04,
            "{} variance {got_variance} {variance}",
            case["id"]
        );
        for (name, got) in [("P50", fixed.money.p50), ("P80", fixed.money.p80), ("P90", fixed.money.p90)] {
            // The sum itself, unless the percentile is within five standard errors of another one.
            let exact = &case["fixed_quantiles"][name];
            let q = name[1..].parse::<f64>().unwrap() / 100.0;
            let se = (q * (1.0 - q) / n).sqrt();
            let clear = |edge: &str| (exact[edge].as_f64().unwrap() - q).abs() > 5.0 * se;
            if clear("F_before") && clear("F_at") {
                assert_eq!(got, exact["value"].as_f64().unwrap(), "{} {name}", case["id"]);
                atoms += 1;
            }
        }
    }
    assert!(atoms >= 20, "{atoms}");
}

fn item(stream: u64, cost: Pert) -> Item {
    Item {
        stream,
        cost,
        days: Pert::fixed(0.0),
        stage: Stage::Demolition,
        trade: String::new(),
        p_cost: 1.0,
        covers: Vec::new(),
        in_base: false,
        utility_wait: false,
    }
}
