//! Published examples: RFC 8032 section 7.1, RFC 8037 appendix A.

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use keys::{PublicKey, SecretKey, Signer as _};

fn bytes(hex: &str) -> Vec<u8> {
    (0..hex.len()).step_by(2).map(|at| u8::from_str_radix(&hex[at..at + 2], 16).unwrap()).collect()
}

/// RFC 8032, section 7.1, tests 1 to 3: secret, public, message, signature.
const ED25519: [[&str; 4]; 3] = [
    [
        "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
        "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
        "",
        "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b",
    ],
    [
        "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
        "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
        "72",
        "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00",
    ],
    [
        "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
        "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025",
        "af82",
        "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a",
    ],
];

#[test]
fn signatures_are_those_of_rfc_8032() {
    for [secret, public, message, signature] in ED25519 {
        let key = SecretKey::from_random(bytes(secret).try_into().unwrap()).unwrap();
        assert_eq!(key.public().as_bytes().to_vec(), bytes(public));
        assert_eq!(key.sign(&bytes(message)).unwrap().to_vec(), bytes(signature));
        let signature: [u8; 64] = bytes(signature).try_into().unwrap();
        assert!(key.public().signed(&bytes(message), &signature));
        assert!(!key.public().signed(b"another", &signature));
    }
}

#[test]
fn a_key_its_json_and_its_thumbprint_are_those_of_rfc_8037() {
    // A.1 and A.2, with the members in the order of RFC 7638.
    let secret = r#"{"crv":"Ed25519","d":"nWGxne_9WmC6hEr0kuwsxERJxWl7MmkZcDusAxyuf2A","kty":"OKP","x":"11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo"}"#;
    let public = r#"{"crv":"Ed25519","kty":"OKP","x":"11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo"}"#;
    let key = SecretKey::from_jwk(secret.as_bytes()).unwrap();
    assert_eq!(*key.to_jwk(), secret);
    assert_eq!(key.public().to_jwk(), public);
    // A.3.
    assert_eq!(key.public().thumbprint().to_string(), "kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k");
}

#[test]
fn the_signing_input_and_signature_are_those_of_rfc_8037() {
    // A.4: the header {"alg":"EdDSA"} and the content “Example of Ed25519 signing”.
    let (secret, public) = (ED25519[0][0], ED25519[0][1]);
    let input = "eyJhbGciOiJFZERTQSJ9.RXhhbXBsZSBvZiBFZDI1NTE5IHNpZ25pbmc";
    let signature = "hgyY0il_MGCjP0JzlnLWG1PPOt7-09PGcvMg3AIbQR6dWbhijcNR4ki4iylGjg5BhVsPt9g7sVvpAr_MuM0KAg";
    let key = SecretKey::from_random(bytes(secret).try_into().unwrap()).unwrap();
    let made = key.sign(input.as_bytes()).unwrap();
    assert_eq!(URL_SAFE_NO_PAD.encode(made), signature);
    // A.5.
    let public = PublicKey::from_bytes(bytes(public).as_slice().try_into().unwrap()).unwrap();
    assert!(public.signed(input.as_bytes(), &made));
}
