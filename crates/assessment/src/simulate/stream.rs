//! Random words by number: the word of a draw and a condition is a function of seed, draw and condition alone.
//!
//! One condition's draws therefore do not move when another comes, goes or becomes likelier: two pictures of a house
//! share their luck, and the difference between them is smooth. The function is Philox2×64 with seven rounds, one more
//! than the authors find enough: J. K. Salmon, M. A. Moraes, R. O. Dror, D. E. Shaw, "Parallel random numbers: as easy as 1, 2, 3", Proc. SC11 (2011).

use survey::Digest;

const MULTIPLIER: u64 = 0xD2B7_4407_B1CE_6E93;
/// Step of the key, from the golden ratio.
const WEYL: u64 = 0x9E37_79B9_7F4A_7C15;
const ROUNDS: u32 = 7;

/// Two random words of a counter under a key.
#[inline]
pub(super) fn philox([mut left, mut right]: [u64; 2], mut key: u64) -> [u64; 2] {
    for _ in 0..ROUNDS {
        let product = u128::from(MULTIPLIER) * u128::from(left);
        left = (product >> 64) as u64 ^ key ^ right;
        right = product as u64;
        key = key.wrapping_add(WEYL);
    }
    [left, right]
}

/// The first eight bytes of a digest as a word: the seed of a simulation.
pub fn word(digest: &Digest) -> u64 {
    digest.as_bytes().iter().take(8).fold(0, |word, byte| word << 8 | u64::from(*byte))
}

/// The stream of a condition, by its key.
pub fn stream_of(key: &str) -> u64 {
    word(&Digest::of(key.as_bytes()))
}

/// A number in the open interval (0, 1) from 32 random bits.
#[inline]
pub(super) fn unit(bits: u64) -> f64 {
    ((bits & 0xFFFF_FFFF) as f64 + 0.5) * (1.0 / 4_294_967_296.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Known answers that the authors publish with their code (Random123, kat_vectors).
    #[test]
    fn words_are_those_of_the_published_generator() {
        for (counter, key, words) in [
            ([0, 0], 0, [0xb41d_a69f_bfef_c666, 0x511e_9ce1_a553_4056]),
            ([u64::MAX; 2], u64::MAX, [0xa469_6cc0_4462_015d, 0x7247_82da_e171_69e9]),
            (
                [0x243f_6a88_85a3_08d3, 0x1319_8a2e_0370_7344],
                0xa409_3822_299f_31d0,
                [0x98ed_1534_392b_f372, 0x6752_8b15_6888_2fd5],
            ),
        ] {
            assert_eq!(philox(counter, key), words);
        }
    }

    #[test]
    fn units_never_reach_an_end() {
        assert!(unit(0) > 0.0 && unit(u64::MAX) < 1.0);
        assert_eq!(unit(1 << 31) + unit((1 << 31) - 1), 1.0);
    }

    #[test]
    fn a_stream_is_the_digest_of_its_key() {
        // SHA-256 of "abc" begins ba7816bf 8f01cfea (FIPS 180-2, appendix B.1).
        assert_eq!(stream_of("abc"), 0xba78_16bf_8f01_cfea);
    }
}
