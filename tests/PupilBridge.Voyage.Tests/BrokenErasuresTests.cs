using System.Text;
using PupilBridge.Clinic.Entries;
using PupilBridge.Voyage.Runs;
using PupilBridge.Voyage.World;

namespace PupilBridge.Voyage.Tests;

/// <summary>The model must find an erasure that is broken on purpose.</summary>
public sealed class BrokenErasuresTests
{
    private static readonly VoyagePlan Plan = VoyagePlan.Of(2).Calm() with
    {
        Instruments = 1,
        ExamsEach = 5,
        MoreWaits = 0,
        Sealed = true,
        Erasures = 0.9,
    };

    [Fact]
    public void A_calm_voyage_with_erasures_has_no_problem()
    {
        var result = VoyageRun.Run(Plan);
        Assert.Empty(result.Problems);
        Assert.True(result.Counts.Erasures.Done > 0);
        Assert.True(result.Counts.SealedPieces > 10);
    }

    [Fact]
    public void An_erasure_that_only_says_that_it_is_done_is_found()
    {
        var problems = Spoilt(untilPowerFails: false);
        Assert.Contains(problems, p => p.Contains("to be destroyed, and it is there", StringComparison.Ordinal));
        Assert.Contains(
            problems,
            p =>
                p.Contains("was told to be erased at", StringComparison.Ordinal)
                && p.Contains("opens", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void A_key_that_comes_back_with_a_power_cut_is_found() =>
        Assert.Contains(
            Spoilt(untilPowerFails: true),
            p => p.Contains("to be destroyed, and it is there", StringComparison.Ordinal)
        );

    [Fact]
    public void A_name_that_can_still_be_read_somewhere_is_found() =>
        Assert.Contains(
            Tampered(
                (world, patient) =>
                    world.Disk.Edit("/quay/erasures.jsonl", bytes => bytes.AddRange(Encoding.UTF8.GetBytes(patient))),
                isErased: true
            ),
            p => p.Contains("can be read in /quay/erasures.jsonl", StringComparison.Ordinal)
        );

    [Fact]
    public void A_key_that_is_destroyed_and_nobody_ordered_it_is_found() =>
        Assert.Contains(
            Tampered(
                (world, patient) =>
                    world.Disk.Edit(
                        "/quay/subject-keys/patients.pbk",
                        bytes =>
                        {
                            foreach (var slot in Model.OwnSubjectKeys.Of(world).Find(patient).ToList())
                            {
                                for (var at = 0; at < 64; at++)
                                    bytes[4096 + ((int)slot.Place * 64) + at] = 0;
                            }
                        }
                    ),
                isErased: false
            ),
            p => p.Contains("nobody ordered", StringComparison.Ordinal)
        );

    private static IReadOnlyList<string> Spoilt(bool untilPowerFails)
    {
        SpoiltKeysDisk? disk = null;
        var problems = VoyageRun
            .Run(Plan, prepare: world => world.KeysDisk = disk = new SpoiltKeysDisk(world.Disk, untilPowerFails))
            .Problems;
        Assert.True(disk!.Kept > 0, "nothing was to be destroyed");
        return problems;
    }

    private static IReadOnlyList<string> Tampered(Action<VoyageWorld, string> spoil, bool isErased) =>
        VoyageRun
            .Run(
                Plan with
                {
                    Erasures = isErased ? Plan.Erasures : 0,
                },
                world =>
                {
                    var erased = world.Orders.Orders.Values.LastOrDefault(order => order.IsDone == true);
                    var entered = world.People.Recorded.Values.Select(told => told.Entry).OfType<OpenExamEntry>();
                    spoil(world, isErased ? erased!.Entry.Patient : entered.First().Patient!);
                }
            )
            .Problems;
}
