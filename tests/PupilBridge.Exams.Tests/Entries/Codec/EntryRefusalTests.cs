using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;

namespace PupilBridge.Exams.Tests.Entries.Codec;

/// <summary>What the codec refuses, and with what words.</summary>
public class EntryRefusalTests
{
    [Fact]
    public void An_unknown_kind_is_refused_with_what_to_do()
    {
        var refusal = Assert.Throws<EntryRefusedException>(() => EntryCodec.Decode([0xC8, 0x01, 1, 0, 0])).Refusal;
        Assert.Equal((RefusalCause.UnknownKind, 200, 1), (refusal.Cause, refusal.Kind, refusal.Version));
        Assert.Contains("Install that version", refusal.Message);
    }

    [Fact]
    public void A_newer_version_of_a_known_kind_is_refused_with_what_to_do()
    {
        var refusal = Assert.Throws<EntryRefusedException>(() => EntryCodec.Decode([1, 2, 0, 0])).Refusal;
        Assert.Equal((RefusalCause.NewerVersion, 1, 2), (refusal.Cause, refusal.Kind, refusal.Version));
        Assert.Contains("reads up to 1", refusal.Message);
    }

    [Fact]
    public void An_unknown_protection_is_refused()
    {
        Assert.False(EntryCodec.TryDecode([100, 1, 9, 0], out _, out var refusal));
        Assert.Equal(RefusalCause.UnknownProtection, refusal!.Cause);
    }

    [Fact]
    public void A_number_that_was_never_given_has_no_format() =>
        Assert.Equal(
            RefusalCause.UnknownKind,
            EntryCodec.TryDecode([0xFF, 0x01, 1, 0, 0], out _, out var refusal) ? 0 : refusal!.Cause
        );

    [Fact]
    public void What_changed_about_a_person_cannot_hold_a_hash()
    {
        var change = new PersonChanged
        {
            Id = new(9),
            Who = new("AB"),
            At = new(2),
            ProgramVersion = "0",
            Person = new("CD"),
            Roles = PersonRoles.Examiner,
            IsEnabled = true,
            What = "added",
        };
        Assert.Throws<ArgumentException>(() => change with { What = new string('A', 84) });
        Assert.Throws<ArgumentException>(() => change with { What = "" });
    }
}
