//! The command line itself: help, wrong usage, closed pipes.
#![allow(missing_docs, clippy::unwrap_used, reason = "a test may stop where it stands")]

mod desk;

use std::fmt::Write;
use std::process::Stdio;

use desk::{Desk, scenarios};
use serde_json::Value;

#[test]
fn help_is_as_expected() {
    let desk = Desk::new();
    let mut all = String::new();
    for arguments in [
        &["--help"][..],
        &["demo", "--help"],
        &["compare", "--help"],
        &["forecast", "--help"],
        &["dose", "--help"],
        &["feeds", "--help"],
        &["purpose", "--help"],
        &["rings", "--help"],
        &["pile-volume", "--help"],
        &["mix", "--help"],
        &["heat", "--help"],
        &["carbon", "--help"],
        &["book", "--help"],
        &["book", "correct", "--help"],
    ] {
        let done = desk.run(arguments);
        assert_eq!(done.code, 0);
        writeln!(all, "$ kerfbook {}\n{}", arguments.join(" "), done.out).unwrap();
    }
    insta::assert_snapshot!("help", all);
    let mut spanish = String::new();
    for command in ["forecast", "heat", "carbon"] {
        let done = desk.run(&["--language", "es", command, "--help"]);
        assert_eq!(done.code, 0);
        writeln!(spanish, "$ kerfbook {command} --help\n{}", done.out).unwrap();
    }
    insta::assert_snapshot!("help_in_spanish", spanish);
}

#[test]
fn a_wrong_command_line_ends_with_2_and_says_where_help_is() {
    let desk = Desk::new();
    for arguments in [
        &[][..],
        &["mulch"],
        &["compare"],
        &["forecast"],
        &["rings"],
        &["pile-volume", "a.toml", "b.toml"],
        &["forecast", "bed.toml", "--runs", "0"],
        &["forecast", "bed.toml", "--runs", "12,5"],
        &["forecast", "bed.toml", "--model", "input.json"],
        &["compare", "bed.toml", "--colour", "red"],
        &["book", "correct", "book.kerf", "--entry", "a:1", "--reason", "x"],
    ] {
        let done = desk.run(arguments);
        assert_eq!(done.code, 2, "{arguments:?}");
        assert!(done.out.is_empty() && done.err.contains("--help"), "{arguments:?}: {}", done.err);
    }
    assert!(desk.run(&["compare", "bed.toml", "--language", "la"]).err.contains("en, es"));
    let done = desk.run(&["compare", "--json"]);
    let document: Value = serde_json::from_str(&done.out).unwrap();
    assert_eq!((done.code, &document["format"], &document["error"]["kind"]), (2, &1.into(), &"usage".into()));
    assert!(desk.is_empty());
}

#[test]
fn a_closed_pipe_ends_quietly() {
    let desk = Desk::new();
    let bed = scenarios().join("bed.toml");
    let bed = bed.to_str().unwrap();
    for arguments in [
        &["compare", bed][..],
        &["compare", bed, "--json"],
        &["dose", bed],
        &["forecast", bed, "--json"],
        &["--help"],
    ] {
        let mut child =
            desk.command(arguments).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
        drop(child.stdout.take());
        let output = child.wait_with_output().unwrap();
        let err = String::from_utf8(output.stderr).unwrap();
        assert!(err.is_empty(), "{arguments:?}: {err}");
        assert_eq!(output.status.code(), Some(0), "{arguments:?}");
    }
}

#[test]
fn the_language_follows_the_system_where_it_is_not_given() {
    let desk = Desk::new();
    let with = |variable: &str, value: &str, arguments: &[&str]| {
        let output = desk.command(arguments).env(variable, value).output().unwrap();
        String::from_utf8(output.stderr).unwrap()
    };
    assert!(with("LANG", "es_AR.UTF-8", &["dose", "none.toml"]).contains("no existe"));
    assert!(with("LANG", "de_CH.UTF-8", &["dose", "none.toml"]).contains("no such file"));
    assert!(with("LC_ALL", "es", &["--language", "en", "dose", "none.toml"]).contains("no such file"));
}
