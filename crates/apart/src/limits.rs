//! What a process takes from itself before it touches a stranger's bytes.

use std::io;

/// Address space: the largest photograph, what decoding it may take (`photo::MAX_MEMORY`), and the program itself.
#[cfg(unix)]
const MEMORY: u64 = 3 << 30;
/// Seconds of processor time; a photograph of 108 megapixels takes a few.
#[cfg(unix)]
const SECONDS: u64 = 60;

/// What the kernel refuses a process that shut itself in, beside its limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ByTheKernel {
    /// Every path, and ports where it knows them.
    Paths,
    /// Nothing: it is too old or of another kind.
    Nothing,
}

/// Takes from this process, for good: opening anything, writing to a file, dumping its memory, more memory and time than a
/// photograph needs; on Linux every path and every port too, as far as the kernel can.
///
/// Gives how much of it the kernel refuses.
///
/// # Errors
/// Limits the system refuses.
#[cfg(unix)]
pub fn shut_in() -> io::Result<ByTheKernel> {
    use rustix::process::{Resource, Rlimit, setrlimit};

    #[cfg(target_os = "linux")]
    let refused = by_the_kernel()?;
    #[cfg(not(target_os = "linux"))]
    let refused = ByTheKernel::Nothing;
    let at_most = |most: u64| Rlimit { current: Some(most), maximum: Some(most) };
    for (what, most) in [
        (Resource::Core, 0),
        (Resource::Fsize, 0),
        // Input, output and errors are open; no fourth can be.
        (Resource::Nofile, 3),
        (Resource::As, MEMORY),
        (Resource::Cpu, SECONDS),
    ] {
        setrlimit(what, at_most(most))?;
    }
    Ok(refused)
}

/// Elsewhere nothing is known that does it from within, so nothing is decoded.
///
/// # Errors
/// Always.
#[cfg(not(unix))]
pub fn shut_in() -> io::Result<ByTheKernel> {
    Err(io::ErrorKind::Unsupported.into())
}

/// No path may be opened, changed or run and no port bound or reached; where an older kernel knows less of it, as much as it
/// knows.
#[cfg(target_os = "linux")]
fn by_the_kernel() -> io::Result<ByTheKernel> {
    use landlock::{ABI, Access as _, AccessFs, AccessNet, Ruleset, RulesetAttr as _, RulesetStatus};

    let newest = ABI::V5;
    let shut = || {
        let rules = Ruleset::default()
            .handle_access(AccessFs::from_all(newest))?
            .handle_access(AccessNet::from_all(newest))?
            .create()?;
        rules.restrict_self()
    };
    let done = shut().map_err(|e: landlock::RulesetError| io::Error::other(e.to_string()))?;
    Ok(match done.ruleset {
        RulesetStatus::NotEnforced => ByTheKernel::Nothing,
        _ => ByTheKernel::Paths,
    })
}
