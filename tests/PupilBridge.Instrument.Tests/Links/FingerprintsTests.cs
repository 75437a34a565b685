using CsCheck;
using PupilBridge.Instrument.Links;

namespace PupilBridge.Instrument.Tests.Links;

public sealed class FingerprintsTests
{
    private const long Remembered = LinkTiming.FingerprintsRemembered;

    /// <summary>A link takes numbers in order, now and then with a hole, and takes the last ones back when a write failed.</summary>
    private static readonly Gen<(int Kind, int Count)> Deed = Gen.Select(Gen.Int[0, 9], Gen.Int[1, 700]);

    [Fact]
    public void The_last_numbers_are_known_and_no_others() =>
        Deed.List[1, 12]
            .Sample(deeds =>
            {
                var prints = Fingerprints.None;
                var known = new Dictionary<long, uint?>();
                var (last, highest) = (0L, 0L);
                foreach (var (kind, count) in deeds)
                {
                    for (var n = 0; n < count; n++)
                    {
                        if (kind == 0 && last > 0 && known.ContainsKey(last))
                        {
                            prints = prints.Without(last);
                            known.Remove(last--);
                            continue;
                        }

                        last += kind == 1 && n == 0 ? 5000 : 1;
                        uint? crc = kind == 2 ? null : (uint)(last * 2654435761);
                        prints = prints.With(last, crc);
                        known[last] = crc;
                        highest = Math.Max(highest, last);
                    }
                }

                for (var sequence = Math.Max(1, highest - Remembered + 1); sequence <= last + 3; sequence++)
                {
                    Assert.Equal(known.TryGetValue(sequence, out var expected), prints.TryGet(sequence, out var crc));
                    Assert.Equal(expected, crc);
                }
            });

    [Fact]
    public void A_number_that_is_too_old_is_forgotten_and_does_not_come_back()
    {
        var before = Fingerprints.None.With(1, 7).With(2, 8);
        var after = before.With(1 + Remembered, 9);

        Assert.False(after.TryGet(1, out _));
        Assert.True(after.TryGet(2, out _));
        Assert.False(after.With(1, 7).TryGet(1, out _));
        Assert.True(after.With(1, 7).TryGet(1 + Remembered, out var crc));
        Assert.Equal(9u, crc);
        Assert.False(after.Without(1).TryGet(1, out _));
        Assert.True(before.TryGet(1, out _));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(long.MinValue)]
    public void A_number_that_no_event_has_is_not_known(long sequence) =>
        Assert.False(Fingerprints.None.TryGet(sequence, out _));
}
