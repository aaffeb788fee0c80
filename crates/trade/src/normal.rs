//! The normal distribution's cumulative curve and its inverse.
//!
//! Φ(z) = erfc(−z/√2)/2, which keeps its relative accuracy far into the lower tail (Abramowitz and Stegun,
//! Handbook of Mathematical Functions, 1964, 7.1.2 and 26.2.29). The inverse is algorithm AS 241, routine PPND16
//! (M. J. Wichura, The percentage points of the normal distribution, Applied Statistics 37(3), 1988, 477–484).

use core::f64::consts::FRAC_1_SQRT_2;

/// Probability that a standard normal variable is at most `z`; 0 and 1 at the infinities, NaN for NaN.
pub fn phi(z: f64) -> f64 {
    0.5 * libm::erfc(-z * FRAC_1_SQRT_2)
}

/// Probability that a normal variable of mean `mean` and standard deviation `sigma` exceeds `limit`. With no
/// spread the answer is 0 or 1, and exactly at the limit is not over it.
pub fn chance_over(mean: f64, limit: f64, sigma: f64) -> f64 {
    if sigma > 0.0 {
        phi((mean - limit) / sigma)
    } else if mean > limit {
        1.0
    } else {
        0.0
    }
}

/// The z with Φ(z) = `p`, to about one part in 10¹⁶ (AS 241); ∓∞ at 0 and 1, NaN outside them.
pub fn quantile(p: f64) -> f64 {
    if !(0.0..=1.0).contains(&p) {
        return f64::NAN;
    }
    let off_center = p - 0.5;
    if libm::fabs(off_center) <= 0.425 {
        let r = 0.180_625 - off_center * off_center;
        return off_center * ratio(r, &CENTER);
    }
    let tail = libm::fmin(p, 1.0 - p);
    if tail <= 0.0 {
        return if off_center < 0.0 { f64::NEG_INFINITY } else { f64::INFINITY };
    }
    let r = libm::sqrt(-libm::log(tail));
    let z = if r <= 5.0 { ratio(r - 1.6, &TAIL) } else { ratio(r - 5.0, &FAR) };
    if off_center < 0.0 { -z } else { z }
}

/// Numerator and denominator of a rational function, constant terms first.
type Ratio = [[f64; 8]; 2];

fn ratio(r: f64, [above, below]: &Ratio) -> f64 {
    let at = |terms: &[f64; 8]| terms.iter().rev().fold(0.0, |sum, term| sum * r + term);
    at(above) / at(below)
}

/// AS 241, |p − 1/2| ≤ 0.425.
#[allow(clippy::excessive_precision, reason = "digits as printed")]
const CENTER: Ratio = [
    [
        3.387_132_872_796_366_608_0,
        1.331_416_678_917_843_774_5e2,
        1.971_590_950_306_551_442_7e3,
        1.373_169_376_550_946_112_5e4,
        4.592_195_393_154_987_145_7e4,
        6.726_577_092_700_870_085_3e4,
        3.343_057_558_358_812_810_5e4,
        2.509_080_928_730_122_672_7e3,
    ],
    [
        1.0,
        4.231_333_070_160_091_125_2e1,
        6.871_870_074_920_579_083_0e2,
        5.394_196_021_424_751_107_7e3,
        2.121_379_430_158_659_586_7e4,
        3.930_789_580_009_271_061_0e4,
        2.872_908_573_572_194_267_4e4,
        5.226_495_278_852_854_561_0e3,
    ],
];

/// AS 241, √(−ln tail) ≤ 5.
#[allow(clippy::excessive_precision, reason = "digits as printed")]
const TAIL: Ratio = [
    [
        1.423_437_110_749_683_577_34,
        4.630_337_846_156_545_295_90,
        5.769_497_221_460_691_405_50,
        3.647_848_324_763_204_605_04,
        1.270_458_252_452_368_382_58,
        2.417_807_251_774_506_117_70e-1,
        2.272_384_498_926_918_458_33e-2,
        7.745_450_142_783_414_076_40e-4,
    ],
    [
        1.0,
        2.053_191_626_637_758_821_87,
        1.676_384_830_183_803_849_40,
        6.897_673_349_851_000_045_50e-1,
        1.481_039_764_274_800_745_90e-1,
        1.519_866_656_361_645_719_66e-2,
        5.475_938_084_995_344_946_00e-4,
        1.050_750_071_644_416_843_24e-9,
    ],
];

/// AS 241, farther out.
#[allow(clippy::excessive_precision, reason = "digits as printed")]
const FAR: Ratio = [
    [
        6.657_904_643_501_103_777_20,
        5.463_784_911_164_114_369_90,
        1.784_826_539_917_291_335_80,
        2.965_605_718_285_048_912_30e-1,
        2.653_218_952_657_612_309_30e-2,
        1.242_660_947_388_078_438_60e-3,
        2.711_555_568_743_487_578_15e-5,
        2.010_334_399_292_288_132_65e-7,
    ],
    [
        1.0,
        5.998_322_065_558_879_376_90e-1,
        1.369_298_809_227_358_053_10e-1,
        1.487_536_129_085_061_485_25e-2,
        7.868_691_311_456_132_591_00e-4,
        1.846_318_317_510_054_681_80e-5,
        1.421_511_758_316_445_888_70e-7,
        2.044_263_103_389_939_785_64e-15,
    ],
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_curve_agrees_with_published_values() {
        // Abramowitz and Stegun 1964, Tables 26.1 and 26.2 (−log10 Q(5)); the digits from memory.
        for (z, p) in [
            (0.0, 0.5),
            (1.0, 0.841_344_746_068_543),
            (2.0, 0.977_249_868_051_821),
            (3.0, 0.998_650_101_968_370),
            (-1.0, 0.158_655_253_931_457),
        ] {
            assert!((phi(z) - p).abs() < 5e-15, "{z}");
        }
        assert!((-libm::log10(phi(-5.0)) - 6.54265).abs() < 5e-6);
    }

    #[test]
    fn without_spread_the_limit_itself_is_not_over() {
        assert_eq!((chance_over(1.0, 1.0, 0.0), chance_over(1.1, 1.0, 0.0)), (0.0, 1.0));
        assert_eq!(chance_over(f64::MAX, -f64::MAX, 1e-300), 1.0);
    }

    #[test]
    fn the_inverse_agrees_with_scipy_and_turns_the_curve_back() {
        // scipy.stats.norm.ppf 1.17; Wichura 1988 prints the first, second and last as checks (from memory).
        for (p, z) in [
            (0.25, -0.674_489_750_196_081_7),
            (0.001, -3.090_232_306_167_813_5),
            (0.8, 0.841_621_233_572_914_2),
            (0.9, 1.281_551_565_544_600_4),
            (0.95, 1.644_853_626_951_472_2),
            (0.999, 3.090_232_306_167_813),
            (1e-20, -9.262_340_089_798_409),
        ] {
            assert!((quantile(p) / z - 1.0).abs() < 1e-15, "{p}: {}", quantile(p));
        }
        for n in 1..2000 {
            let p = f64::from(n) / 2000.0;
            assert!((phi(quantile(p)) - p).abs() < 1e-15, "{p}");
            assert!((quantile(p) + quantile(1.0 - p)).abs() < 1e-12, "{p}");
        }
        assert_eq!((quantile(0.0), quantile(1.0), quantile(0.5)), (f64::NEG_INFINITY, f64::INFINITY, 0.0));
        assert!(quantile(-0.1).is_nan() && quantile(f64::NAN).is_nan());
    }
}
