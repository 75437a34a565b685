using System.Text;
using PupilBridge.Simulator.Faults;

namespace PupilBridge.Simulator.Tests.Faults;

public class ByteFaultTests
{
    private static readonly byte[] Sent = Encoding.ASCII.GetBytes(
        string.Concat(Enumerable.Range(0, 500).Select(i => $"LINE,{i},of,some,length*0BADF00D\n"))
    );

    [Fact]
    public void Flipped_bits_keep_the_length_and_differ_by_one_bit_where_they_fired()
    {
        var fault = new FlippedBits(0.01, Chance());
        var got = Through(fault, Sent);
        Assert.Equal(Sent.Length, got.Length);
        var differences = Sent.Zip(got).Where(p => p.First != p.Second).ToArray();
        Assert.Equal(fault.Fired, differences.Length);
        Assert.True(fault.Fired > 50);
        Assert.All(
            differences,
            d => Assert.Equal(1, System.Numerics.BitOperations.PopCount((uint)(d.First ^ d.Second)))
        );
    }

    [Fact]
    public void Dropped_bytes_are_missing_as_often_as_they_fired()
    {
        var fault = new DroppedBytes(0.01, Chance());
        var got = Through(fault, Sent);
        Assert.Equal(Sent.Length - fault.Fired, got.Length);
        Assert.True(fault.Fired > 50);
    }

    [Fact]
    public void Doubled_bytes_come_twice_as_often_as_they_fired()
    {
        var fault = new DoubledBytes(0.01, Chance());
        var got = Through(fault, Sent);
        Assert.Equal(Sent.Length + fault.Fired, got.Length);
        Assert.True(fault.Fired > 50);
    }

    [Fact]
    public void Delayed_bytes_arrive_late_complete_and_in_order()
    {
        var fault = new DelayedBytes(0.001, TimeSpan.FromSeconds(1), Chance());
        var got = new List<byte>();
        fault.Pass(Sent, TimeSpan.Zero, p => got.AddRange(p));
        Assert.True(fault.Fired > 5);
        Assert.True(got.Count < Sent.Length);
        fault.Pass([], TimeSpan.FromSeconds(1), p => got.AddRange(p));
        Assert.Equal(Sent, got);
    }

    [Fact]
    public void Split_reads_hand_on_everything_in_small_pieces()
    {
        var fault = new SplitReads(Chance());
        var pieces = new List<byte[]>();
        for (var at = 0; at < Sent.Length; at += 300)
        {
            fault.Pass(Sent.AsSpan(at, Math.Min(300, Sent.Length - at)), TimeSpan.Zero, p => pieces.Add(p.ToArray()));
        }

        fault.IsActive = false;
        fault.Pass([], TimeSpan.Zero, p => pieces.Add(p.ToArray()));
        Assert.Equal(Sent, pieces.SelectMany(p => p));
        Assert.True(fault.Fired > 50);
        Assert.True(pieces.Count > fault.Fired);
        Assert.All(pieces[..^1], p => Assert.InRange(p.Length, 1, 64));
    }

    [Fact]
    public void A_fault_that_is_switched_off_lets_all_pass_and_releases_what_it_held()
    {
        var fault = new DelayedBytes(1, TimeSpan.FromSeconds(1), Chance());
        var got = new List<byte>();
        fault.Pass(Sent.AsSpan(0, 10), TimeSpan.Zero, p => got.AddRange(p));
        fault.IsActive = false;
        fault.Pass(Sent.AsSpan(10), TimeSpan.Zero, p => got.AddRange(p));
        Assert.Equal(Sent, got);
    }

    public static TheoryData<string> Insertions => [FaultNames.Noise, FaultNames.Garbage, FaultNames.Overlong];

    [Theory]
    [MemberData(nameof(Insertions))]
    public void Insertions_add_bytes_at_about_the_stated_rate_and_lose_none(string name)
    {
        var interval = TimeSpan.FromSeconds(2);
        InsertedBytes fault = name switch
        {
            FaultNames.Noise => new LineNoise(interval, Chance()),
            FaultNames.Garbage => new BinaryGarbage(interval, Chance()),
            _ => new OverlongLine(interval, Chance()),
        };
        var got = new List<byte>();
        for (var i = 0; i < 6000; i++)
        {
            fault.Pass("A,1*00000000\n"u8, TimeSpan.FromMilliseconds(100 * i), p => got.AddRange(p));
        }

        Assert.InRange(fault.Fired, 200, 400);
        Assert.True(got.Count >= (6000 * 13) + fault.Fired);
        if (name == FaultNames.Overlong)
        {
            var lines = Encoding.ASCII.GetString([.. got]).Split('\n');
            Assert.Equal(6000, lines.Count(l => l == "A,1*00000000"));
            Assert.Equal(fault.Fired, lines.Count(l => l.Length > 119));
        }
    }

    public static TheoryData<string> Seeded =>
        [FaultNames.Flip, FaultNames.Drop, FaultNames.Doubled, FaultNames.Delay, FaultNames.Noise];

    [Theory]
    [MemberData(nameof(Seeded))]
    public void The_same_seed_spoils_the_same_bytes(string name)
    {
        Assert.Equal(Through(Make(1), Sent), Through(Make(1), Sent));
        Assert.NotEqual(Through(Make(1), Sent), Through(Make(2), Sent));

        ByteFault Make(long seed) =>
            name switch
            {
                FaultNames.Flip => new FlippedBits(0.01, new Chance(seed, name)),
                FaultNames.Drop => new DroppedBytes(0.01, new Chance(seed, name)),
                FaultNames.Doubled => new DoubledBytes(0.01, new Chance(seed, name)),
                FaultNames.Delay => new DelayedBytes(0.01, TimeSpan.FromSeconds(100), new Chance(seed, name)),
                _ => new LineNoise(TimeSpan.FromMilliseconds(1), new Chance(seed, name)),
            };
    }

    private static Chance Chance() => new(1, "test");

    private static byte[] Through(ByteFault fault, byte[] sent)
    {
        var got = new List<byte>();
        for (var at = 0; at < sent.Length; at += 100)
        {
            fault.Pass(
                sent.AsSpan(at, Math.Min(100, sent.Length - at)),
                TimeSpan.FromMilliseconds(at),
                p => got.AddRange(p)
            );
        }

        return [.. got];
    }
}
