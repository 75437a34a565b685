using System.CommandLine;
using PupilBridge.CommandLine;
using PupilBridge.Safekeeping.Envelopes;
using PupilBridge.Verbs.People;

namespace PupilBridge.Verbs.Backups;

/// <summary>How backups are sealed and opened, as options. A pass phrase is never an argument: those stand in lists of processes.</summary>
internal sealed class EnvelopeOptions
{
    /// <summary>The fewest characters of a pass phrase that new backups are sealed with.</summary>
    private const int FewestCharacters = 12;

    /// <summary>Where the pass phrase stands.</summary>
    public Option<string?> PassPhraseFile { get; } =
        new("--pass-phrase-file")
        {
            Description = "A file whose first line is the pass phrase; of a private key, where one is named.",
            HelpName = "FILE",
        };

    /// <summary>To whom new backups are sealed.</summary>
    public Option<string?> Recipient { get; } =
        new("--recipient")
        {
            Description =
                "A file with the OpenPGP public key that backups are encrypted to ('gpg --export'); only the private key opens them.",
            HelpName = "KEYFILE",
        };

    /// <summary>Whether nothing is sealed.</summary>
    public Option<bool> Unencrypted { get; } =
        new("--unencrypted")
        {
            Description = "Do not encrypt: whoever finds the backup reads it. Keys are left out then.",
        };

    /// <summary>What opens backups that were sealed to a recipient.</summary>
    public Option<string?> PrivateKey { get; } =
        new("--private-key")
        {
            Description =
                "A file with the OpenPGP private key that opens backups made with --recipient ('gpg --export-secret-keys').",
            HelpName = "KEYFILE",
        };

    /// <summary>How a new backup is sealed.</summary>
    /// <exception cref="CommandFailure">Nothing, or more than one way, was named, or it cannot be used.</exception>
    public Envelope ToSeal(Call call)
    {
        var ways = new[]
        {
            call.Get(PassPhraseFile) is not null,
            call.Get(Recipient) is not null,
            call.Get(Unencrypted),
        };
        if (ways.Count(way => way) > 1)
        {
            throw new CommandFailure(
                ExitCode.Usage,
                "More than one way to seal the backup was named.",
                "Give one of --pass-phrase-file, --recipient and --unencrypted; without any the pass phrase is asked for."
            );
        }

        return call.Get(Unencrypted) ? new PlainEnvelope()
            : call.Get(Recipient) is { } recipient ? RecipientEnvelope.ToSeal(Existing(recipient))
            : new PassPhraseEnvelope(Long(FromFile(call) ?? PasswordAsking.Ask(call.Terminal, "the backup")));
    }

    /// <summary>What opens a backup; null where nothing was named.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="sealedAs">How the catalogue says that it is sealed.</param>
    /// <param name="ask">Whether a pass phrase that was not named is asked for.</param>
    /// <exception cref="CommandFailure">What was named cannot be used.</exception>
    public Envelope? ToOpen(Call call, string sealedAs, bool ask)
    {
        if (sealedAs == PlainEnvelope.Called)
        {
            return new PlainEnvelope();
        }

        if (call.Get(PrivateKey) is { } privateKey)
        {
            return RecipientEnvelope.ToOpen(Existing(privateKey), FromFile(call) ?? "");
        }

        if (sealedAs.StartsWith(RecipientEnvelope.Called, StringComparison.Ordinal))
        {
            return ask
                ? throw new CommandFailure(
                    ExitCode.Usage,
                    $"The backup is encrypted to a recipient ({sealedAs}).",
                    "Name the private key with --private-key, and the file of its pass phrase with --pass-phrase-file."
                )
                : null;
        }

        return
            (FromFile(call) ?? (ask ? PasswordAsking.AskOnce(call.Terminal, "Pass phrase of the backup: ") : null))
                is { } passPhrase
            ? new PassPhraseEnvelope(passPhrase)
            : null;
    }

    private string? FromFile(Call call) =>
        call.Get(PassPhraseFile) is { } file
            ? File.ReadLines(Existing(file)).FirstOrDefault() is { Length: > 0 } line
                ? line
                : throw new CommandFailure(ExitCode.Usage, $"{file} is empty.", "Its first line is the pass phrase.")
            : null;

    private static string Existing(string file) =>
        File.Exists(file)
            ? file
            : throw new CommandFailure(ExitCode.NotFound, $"There is no file {file}.", "Name the file with its path.");

    private static string Long(string passPhrase) =>
        passPhrase.Length >= FewestCharacters
            ? passPhrase
            : throw new CommandFailure(
                ExitCode.Usage,
                $"The pass phrase has fewer than {FewestCharacters} characters; whoever finds the backup could try them all.",
                "Take five or more words drawn by lot, and keep them where the clinic finds them in ten years, not beside the backup."
            );
}
