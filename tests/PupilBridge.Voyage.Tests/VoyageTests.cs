using PupilBridge.Voyage.Runs;

namespace PupilBridge.Voyage.Tests;

/// <summary>A short fleet, and that a seed replays.</summary>
public sealed class VoyageTests
{
    /// <summary>Seeds that together meet deaths, power cuts, failing and full disks, rot, clock steps and a faulty line.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(4)]
    [InlineData(7)]
    [InlineData(9)]
    [InlineData(10)]
    public void Nothing_is_lost_doubled_altered_or_hidden(long seed)
    {
        var plan = VoyagePlan.Of(seed) with { ExamsEach = 3 };
        var result = VoyageRun.Run(plan);
        Assert.True(
            result.Problems.Count == 0,
            $"{plan}\n{string.Join('\n', result.Problems)}\nThe whole voyage: {VoyageRun.Replay(seed)}"
        );
        Assert.True(result.Events.Recorded > 100);
        Assert.Equal(0, result.Events.Lost);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(9)]
    public void The_same_seed_gives_the_same_journal_byte_for_byte(long seed)
    {
        var plan = VoyagePlan.Of(seed) with { ExamsEach = 2, Encrypted = false, KeyChanges = null };
        var (one, other) = (VoyageRun.Run(plan), VoyageRun.Run(plan));
        Assert.Equal(one.Digest, other.Digest);
        Assert.Equal(one.Journal.Keys.Order(), other.Journal.Keys.Order());
        Assert.All(one.Journal, file => Assert.Equal(file.Value, other.Journal[file.Key]));
        Assert.Equal(one.Counts.FiredByKind, other.Counts.FiredByKind);
    }

    /// <summary>With patients' keys drawn from the seed, so that they lie in the same places.</summary>
    [Fact]
    public void The_same_seed_gives_the_same_sealed_journal_and_keys_byte_for_byte()
    {
        var plan = Erasing(114) with { ExamsEach = 3 };
        var (one, other) = (VoyageRun.Run(plan), VoyageRun.Run(plan));
        Assert.True(one.Counts.SealedPieces > 10);
        Assert.Contains(one.Journal, file => file.Key.EndsWith("patients.pbk", StringComparison.Ordinal));
        Assert.Equal(one.Journal.Keys.Order(), other.Journal.Keys.Order());
        Assert.All(one.Journal, file => Assert.Equal(file.Value, other.Journal[file.Key]));
        Assert.Equal(one.Counts.Erasures, other.Counts.Erasures);
    }

    /// <summary>
    /// Voyages in which many are erased and the machine goes down within it, as in those that found an exam log kept aside with what was
    /// erased (100, 114), and what was left of a key whose writing was cut off (109).
    /// </summary>
    [Theory]
    [InlineData(100)]
    [InlineData(109)]
    [InlineData(114)]
    public void Who_was_told_to_be_erased_stays_erased_whatever_happens(long seed)
    {
        var result = VoyageRun.Run(Erasing(seed) with { ExamsEach = 6 });
        Assert.Empty(result.Problems);
        Assert.True(result.Counts.Erasures.Done > 0);
        Assert.True(result.Counts.Erasures.CutOff > 0);
    }

    private static VoyagePlan Erasing(long seed) =>
        VoyagePlan.Of(seed) with
        {
            Encrypted = false,
            KeyChanges = null,
            Sealed = true,
            Erasures = 0.5,
            ErasuresCutOff = 0.8,
        };

    /// <summary>Where segments are encrypted their keys are the operating system's chance, and all else is the seed's.</summary>
    [Theory]
    [InlineData(4)]
    [InlineData(10)]
    public void What_is_encrypted_is_kept_as_well_under_changing_keys(long seed)
    {
        var plan = VoyagePlan.Of(seed) with { ExamsEach = 3, Encrypted = true, KeyChanges = TimeSpan.FromMinutes(15) };
        var (one, other) = (VoyageRun.Run(plan), VoyageRun.Run(plan));
        Assert.True(one.Problems.Count == 0, $"{plan}\n{string.Join('\n', one.Problems)}");
        Assert.True(one.Counts.EncryptedRecords > 100);
        Assert.True(one.Counts.FiredByKind["machine-key-change"] > 0);
        Assert.Equal(one.Digest, other.Digest);
        Assert.Equal(one.Counts.FiredByKind, other.Counts.FiredByKind);
    }

    /// <summary>As in the voyages of the seeds 5000093, 5000102 and 5000169, which waited for an instrument that was off.</summary>
    [Fact]
    public void What_an_instrument_lost_as_it_went_off_is_known_once_it_is_on_again()
    {
        var plan = VoyagePlan.Of(2).Calm() with { Instruments = 1, ExamsEach = 1 };
        var result = VoyageRun.Run(
            plan,
            prepare: world =>
            {
                while (world.Clock.Now < TimeSpan.FromMinutes(4))
                    world.Step(withTroubles: true);
                var instrument = world.Lanes[0].Instrument;
                instrument.SetRoom(10);
                instrument.Fixate(near: true);
                Assert.False(instrument.IsAllAcknowledged);
                instrument.CutPower();
            }
        );
        Assert.Empty(result.Problems);
        Assert.True(result.Events.InGap > 0);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_failing_operation_of_the_disk_costs_nothing_whichever_it_is(bool failsOn)
    {
        var points = new IoPoints();
        points.Run(failsOn, stride: 29);
        Assert.Empty(points.Failures.Select(f => $"operation {f.Key}: {f.Value[0]}"));
        Assert.True(points.Points > 5, $"only {points.Points} operations were made to fail");
    }
}
