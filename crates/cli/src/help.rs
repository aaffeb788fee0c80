//! Help in another language. The English stands with the arguments in `args.rs`; `words/en/help.ftl` is held to it by a
//! test, so that a translation is used only for the words it was made from. What clap itself says when something typed
//! cannot be parsed stays in its English.

use std::ffi::OsString;

use clap::{Arg, ArgAction, Command};
use words::{Language, Words};

/// Arguments that every verb takes.
const GLOBAL: &str = "arg";

/// The language asked for on the command line, read before the rest is parsed: help is said in it too.
pub fn asked(args: &[OsString]) -> Option<Language> {
    let words: Vec<&str> = args.iter().filter_map(|a| a.to_str()).collect();
    words.iter().enumerate().find_map(|(n, word)| match word.strip_prefix("--language") {
        Some("") => Language::of_tag(words.get(n + 1)?),
        Some(rest) => Language::of_tag(rest.strip_prefix('=')?),
        None => None,
    })
}

/// The command with its help in a language.
pub fn in_language(command: Command, words: &'static Words) -> Command {
    if words.language() == Language::En {
        return command;
    }
    let say = |id: &str, english: &str| words.catalog(id, english).into_owned();
    let after = command.get_after_help().map(|text| say("help-after", &text.to_string()));
    let about = command.get_about().map(|text| say("help-about", &text.to_string()));
    let verbs: Vec<String> = command.get_subcommands().map(|c| c.get_name().to_owned()).collect();
    let mut command = headed(said(command, GLOBAL, words), words)
        .subcommand_help_heading(words.plain("help-heading-verbs"))
        .subcommand_value_name(words.plain("help-verb"))
        .disable_help_subcommand(true)
        .disable_version_flag(true)
        .arg(Arg::new("version").short('V').long("version").action(ArgAction::Version))
        .mut_arg("version", |arg| arg.help(words.plain("help-version")).help_heading(options(words)));
    if let Some(about) = about {
        command = command.about(about);
    }
    if let Some(after) = after {
        command = command.after_help(after);
    }
    for verb in verbs {
        command = command.mut_subcommand(&verb, |sub| verb_in(sub, &verb, words));
    }
    command
}

/// A verb with its help in a language, and the verbs inside it: those of `catalog` are `catalog-check` and so on.
fn verb_in(command: Command, id: &str, words: &'static Words) -> Command {
    let about =
        command.get_about().map(|text| words.catalog(&format!("help-{id}"), &text.to_string()).into_owned());
    let inner: Vec<String> = command.get_subcommands().map(|c| c.get_name().to_owned()).collect();
    let mut command = headed(said(command, id, words), words);
    if let Some(about) = about {
        command = command.about(about);
    }
    if !inner.is_empty() {
        command = command
            .subcommand_help_heading(words.plain("help-heading-verbs"))
            .subcommand_value_name(words.plain("help-verb"))
            .disable_help_subcommand(true);
    }
    for verb in inner {
        command = command.mut_subcommand(&verb, |sub| verb_in(sub, &format!("{id}-{verb}"), words));
    }
    command
}

fn options(words: &Words) -> String {
    words.plain("help-heading-options")
}

/// Headings, the line of usage, and the flag for help itself.
fn headed(command: Command, words: &'static Words) -> Command {
    let own_help = command.is_disable_help_flag_set();
    let usage = words.plain("help-usage");
    let command = command
        .help_template(format!("{{about-with-newline}}\n{usage} {{usage}}\n\n{{all-args}}{{after-help}}"))
        .disable_help_flag(true);
    if own_help {
        return command;
    }
    let help = Arg::new("help").short('h').long("help").action(ArgAction::Help);
    command.arg(help.help(words.plain("help-help")).help_heading(options(words)))
}

/// Arguments with their words; `[possible values]` is clap's English and stands in the words themselves.
fn said(command: Command, of: &str, words: &'static Words) -> Command {
    command.mut_args(|arg| {
        let id = format!("help-{of}-{}", arg.get_id().as_str().replace('_', "-"));
        let english = arg.get_help().map(|text| text.to_string()).unwrap_or_default();
        let heading =
            if arg.is_positional() { words.plain("help-heading-arguments") } else { options(words) };
        let takes = arg.get_action().takes_values();
        let arg = arg.help(words.catalog(&id, &english).into_owned()).help_heading(heading);
        if takes { arg.hide_possible_values(true) } else { arg }
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory as _;

    /// Every word of help with its id, as the arguments have it.
    fn english() -> Vec<(String, String)> {
        fn args(command: &Command, of: &str, into: &mut Vec<(String, String)>) {
            for arg in command.get_arguments() {
                let id = format!("help-{of}-{}", arg.get_id().as_str().replace('_', "-"));
                into.push((id, arg.get_help().map(|t| t.to_string()).unwrap_or_default()));
            }
        }
        let command = crate::args::Args::command();
        let text = |t: Option<&clap::builder::StyledStr>| t.map(|t| t.to_string()).unwrap_or_default();
        let mut all = vec![
            ("help-about".to_owned(), text(command.get_about())),
            ("help-after".to_owned(), text(command.get_after_help())),
        ];
        args(&command, GLOBAL, &mut all);
        fn verbs(command: &Command, before: &str, all: &mut Vec<(String, String)>) {
            for verb in command.get_subcommands() {
                let of = format!("{before}{}", verb.get_name());
                let about = verb.get_about().map(|t| t.to_string()).unwrap_or_default();
                all.push((format!("help-{of}"), about));
                args(verb, &of, all);
                verbs(verb, &format!("{of}-"), all);
            }
        }
        verbs(&command, "", &mut all);
        all
    }

    const HEADINGS: &str = "\n## What help itself says\nhelp-usage = Usage:\nhelp-verb = VERB\nhelp-heading-verbs = Verbs\n\
        help-heading-options = Options\nhelp-heading-arguments = Arguments\nhelp-help = Print help\n\
        help-version = Print version\n";

    /// `UPDATE_HELP=1` writes the English file from the arguments.
    #[test]
    fn the_english_of_help_is_what_the_arguments_say() {
        let mut text = String::from(
            "# Help of the command line, made from crates/cli/src/args.rs by its test; UPDATE_HELP=1 writes it.\n\n",
        );
        for (id, english) in english() {
            assert!(!english.is_empty(), "{id} is not explained");
            text.push_str(&format!("{id} = {english}\n"));
        }
        text.push_str(HEADINGS);
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../words/en/help.ftl");
        #[allow(clippy::disallowed_methods, reason = "a switch of this test only")]
        let update = std::env::var_os("UPDATE_HELP").is_some();
        if update {
            std::fs::write(path, &text).unwrap();
        }
        assert!(std::fs::read_to_string(path).unwrap() == text, "run UPDATE_HELP=1 cargo test -p cli help");
    }

    #[test]
    fn help_is_said_in_spanish_to_the_last_argument() {
        let spanish = Words::of(Language::Es);
        let left: Vec<String> = english()
            .into_iter()
            .filter(|(id, e)| spanish.translated(id, e).is_none())
            .map(|(id, _)| id)
            .collect();
        assert!(left.is_empty(), "{left:?}");
        let help = in_language(crate::args::Args::command(), spanish).render_help().to_string();
        for words in
            ["Uso: underlath", "Verbos", "Opciones", "anotar la respuesta a un punto", "Códigos de salida"]
        {
            assert!(help.to_lowercase().contains(&words.to_lowercase()), "“{words}” is not in:\n{help}");
        }
    }

    #[test]
    fn the_language_is_read_before_the_rest() {
        let asked = |line: &str| asked(&line.split(' ').map(OsString::from).collect::<Vec<_>>());
        assert_eq!(asked("underlath show --language es"), Some(Language::Es));
        assert_eq!(asked("underlath --language=es --help"), Some(Language::Es));
        assert_eq!(asked("underlath show --language"), None);
        assert_eq!(asked("underlath show"), None);
    }
}
