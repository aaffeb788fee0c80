//! scratch
use assessment::decision::LossRules;
use assessment::*;
use std::time::Instant;
use survey::log::Entry;
use survey::model::fold;
fn main() {
    let path = std::env::args().nth(1).unwrap();
    let text = std::fs::read(path).unwrap();
    let entries: Vec<Entry> = text
        .split(|b| *b == b'\n')
        .filter(|l| !l.is_empty())
        .map(|l| Entry::from_bytes(l).unwrap())
        .collect();
    let catalog = survey::catalog::builtin().unwrap();
    let tables = ClueTables::fit(&catalog);
    let keep: usize = std::env::args().nth(2).map_or(usize::MAX, |k| k.parse().unwrap());
    let picture = fold(&entries[..keep.min(entries.len())]);
    let request = Request {
        survey: picture.survey.unwrap(),
        picture: &picture,
        catalog: &catalog,
        tables: &tables,
        rules: LossRules::default(),
    };
    let mut live = Live::default();
    for _ in 0..4 {
        let t = Instant::now();
        let scope = scope_of(&catalog, &picture);
        println!("scope {:?} {}", t.elapsed(), scope.len());
        let t = Instant::now();
        let c = calculate(&catalog, &picture, &scope);
        println!("calculate {:?} {}", t.elapsed(), c.len());
        let t = Instant::now();
        let mut odds = live.odds(&request).unwrap();
        println!("odds {:?}", t.elapsed());
        let t = Instant::now();
        let looks = odds.looks(&mut || true).unwrap().unwrap();
        println!("looks {:?} {}", t.elapsed(), looks.len());
        let t = Instant::now();
        let t = Instant::now();
        let open: Vec<_> = survey::guide::walk(&catalog, &picture)
            .into_iter()
            .filter(|s| !matches!(s.status, survey::guide::Status::Answered | survey::guide::Status::Skipped))
            .map(|s| s.item)
            .collect();
        let b = odds.bearings(open.iter().copied(), &mut || true).unwrap().unwrap();
        println!(
            "bearings {:?} {} matter {}",
            t.elapsed(),
            b.len(),
            b.iter().filter(|b| b.matters()).count()
        );
        let mut b = b;
        b.sort_by(|x, y| y.value.total_cmp(&x.value));
        for x in b.iter().take(5) {
            println!("   {} {:.2} {:?}", x.item, x.value, x.moves.iter().take(3).collect::<Vec<_>>());
        }
        let t = Instant::now();
        println!("coverage {:?} {:?}", odds.coverage(&mut || true).unwrap(), t.elapsed());
        let mut k = 0u32;
        let mut times = vec![];
        let mut last = Instant::now();
        odds.looks(&mut || {
            k += 1;
            times.push(last.elapsed());
            last = Instant::now();
            true
        })
        .unwrap();
        println!(
            "  steps {k} first {:?} covariance {:?} rest {:?}",
            times[0],
            times[1..78].iter().sum::<std::time::Duration>(),
            times[78..].iter().sum::<std::time::Duration>()
        );
        println!("  gap {:?}", times[78]);
        odds.money(&mut || true).unwrap().unwrap();
        println!("money {:?}", t.elapsed());
        let t = Instant::now();
        let f = odds.freeze("2026-04-12T09:30:00.000-05:00".parse().unwrap()).unwrap();
        println!("freeze {:?}", t.elapsed());
        for l in f.looks.iter().take(6) {
            println!("   {} {} {} {} {}", l.check, l.value, l.cost, l.net_per_minute, l.conditions.len());
        }
    }
}
