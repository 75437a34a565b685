using PupilBridge.Safekeeping.Backups;
using PupilBridge.Safekeeping.Envelopes;
using PupilBridge.Safekeeping.Tests.Support;

namespace PupilBridge.Safekeeping.Tests.Envelopes;

/// <summary>
/// What we seal, GnuPG (Debian package gpg) opens, with pass phrase and with private key; and the other way round. Its default
/// settings are used, so that its own choices of packets, keys and compression are what we read.
/// </summary>
public sealed class GpgAgreesTests : IDisposable
{
    private const string PassPhrase = "käse quay rope tide";
    private readonly Gpg gpg = new();
    private readonly byte[] content = new byte[300_000];

    public GpgAgreesTests() => new Random(17).NextBytes(content);

    public void Dispose() => gpg.Dispose();

    [Fact]
    public void It_opens_with_the_pass_phrase_what_we_sealed_at_full_strength()
    {
        Seal(new PassPhraseEnvelope(PassPhrase), gpg.At("sealed"));
        gpg.Run("--passphrase", PassPhrase, "--output", gpg.At("opened"), "--decrypt", gpg.At("sealed"));
        Assert.Equal(content, File.ReadAllBytes(gpg.At("opened")));
    }

    [Fact]
    public void We_open_with_the_pass_phrase_what_it_sealed()
    {
        File.WriteAllBytes(gpg.At("plain"), content);
        gpg.Run("--passphrase", PassPhrase, "--output", gpg.At("sealed"), "--symmetric", gpg.At("plain"));
        Assert.Equal(content, Opened(House.Words(PassPhrase), gpg.At("sealed")));
        Assert.Throws<WrongKeyException>(() => Opened(House.Words("not this one"), gpg.At("sealed")));
    }

    [Theory]
    [InlineData("rsa2048", "rsa2048")]
    [InlineData("ed25519", "cv25519")]
    public void With_the_keys_of_a_recipient_it_opens_ours_and_we_open_its(string signs, string encrypts)
    {
        MakeKey(signs, encrypts, "");
        var seal = RecipientEnvelope.ToSeal(gpg.At("public.asc"));
        Seal(seal, gpg.At("ours"));
        gpg.Run("--output", gpg.At("opened"), "--decrypt", gpg.At("ours"));
        Assert.Equal(content, File.ReadAllBytes(gpg.At("opened")));

        File.WriteAllBytes(gpg.At("plain"), content);
        gpg.Run(
            "--trust-model",
            "always",
            "--recipient",
            "keeper@quayside.example",
            "--output",
            gpg.At("its"),
            "--encrypt",
            gpg.At("plain")
        );
        var open = RecipientEnvelope.ToOpen(gpg.At("secret.asc"), "");
        Assert.Equal(content, Opened(open, gpg.At("its")));
        Assert.Equal(content, Opened(open, gpg.At("ours")));
        Assert.False(seal.CanOpen);
    }

    [Fact]
    public void A_private_key_with_a_pass_phrase_opens_a_whole_backup()
    {
        MakeKey("rsa2048", "rsa2048", PassPhrase);
        using var house = new House();
        house.Record(20);
        var made = house.BackUp(RecipientEnvelope.ToSeal(gpg.At("public.asc")));
        Assert.False(made.WasOpened);
        Assert.Equal(0, house.BackUp(RecipientEnvelope.ToSeal(gpg.At("public.asc"))).NewPieces);
        var open = RecipientEnvelope.ToOpen(gpg.At("secret.asc"), PassPhrase);
        Assert.True(house.Check(envelope: open).WasOpened);
        Assert.Equal(house.Head, house.Restore(envelope: open).Report.Head);
        var wrong = RecipientEnvelope.ToOpen(gpg.At("secret.asc"), "another");
        Assert.Equal(
            BackupTrouble.WrongKey,
            Assert.Throws<BackupException>(() => house.Check(envelope: wrong)).Trouble
        );
    }

    [Fact]
    public void No_altered_byte_of_a_sealed_file_gives_other_content()
    {
        using var whole = new MemoryStream();
        using (var seal = House.Words().Seal(whole))
        {
            seal.Write("a few words of the journal"u8);
        }

        for (var at = 0; at < whole.Length; at++)
        {
            var bytes = whole.ToArray();
            bytes[at] ^= 0x10;
            Assert.True(IsNoticed(bytes), $"byte {at} of {whole.Length}");
            Assert.True(IsNoticed(whole.ToArray()[..at], mayBeSame: false), $"cut at {at} of {whole.Length}");
        }
    }

    private static bool IsNoticed(byte[] bytes, bool mayBeSame = true)
    {
        try
        {
            // A byte that says nothing (the library takes any version number of the packet) may change; the content may not.
            return Opened(House.Words(), bytes).AsSpan().SequenceEqual("a few words of the journal"u8) && mayBeSame;
        }
        catch (IOException)
        {
            return true;
        }
    }

    private void MakeKey(string signs, string encrypts, string passPhrase)
    {
        const string Who = "Keeper <keeper@quayside.example>";
        gpg.Run("--passphrase", passPhrase, "--quick-generate-key", Who, signs, "cert,sign", "never");
        gpg.Run("--armor", "--output", gpg.At("main.asc"), "--export", "keeper@quayside.example");
        gpg.Run(
            "--passphrase",
            passPhrase,
            "--quick-add-key",
            gpg.Fingerprint("keeper@quayside.example"),
            encrypts,
            "encr",
            "never"
        );
        gpg.Run("--armor", "--output", gpg.At("public.asc"), "--export", "keeper@quayside.example");
        gpg.Run(
            "--passphrase",
            passPhrase,
            "--armor",
            "--output",
            gpg.At("secret.asc"),
            "--export-secret-keys",
            "keeper@quayside.example"
        );
    }

    private void Seal(Envelope envelope, string path)
    {
        using var file = File.Create(path);
        using var seal = envelope.Seal(file);
        seal.Write(content);
    }

    private static byte[] Opened(Envelope envelope, string path) => Opened(envelope, File.ReadAllBytes(path));

    private static byte[] Opened(Envelope envelope, byte[] bytes)
    {
        using var from = new MemoryStream(bytes);
        using var opened = envelope.Open(from);
        using var to = new MemoryStream();
        opened.CopyTo(to);
        return to.ToArray();
    }
}
