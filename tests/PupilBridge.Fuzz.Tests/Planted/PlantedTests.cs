using PupilBridge.Fuzz.Codec;
using PupilBridge.Fuzz.Engine;
using PupilBridge.Fuzz.Importing;
using PupilBridge.Fuzz.Journal;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Fuzz.Tests.Planted;

/// <summary>The harness finds faults: each that is planted here must be found within the short run of its target.</summary>
public sealed class PlantedTests
{
    [Fact]
    public void A_decoder_that_takes_one_wrong_checksum_is_found() =>
        AssertFound(
            new CodecTarget(new SpoiltCodec()),
            "codec",
            "The decoder and the reference judge a line differently"
        );

    [Fact]
    public void A_framer_that_loses_a_line_when_its_end_comes_in_a_read_of_its_own_is_found() =>
        AssertFound(
            new FramerTarget(
                static (bytes, resyncing) =>
                    // What stands alone before its LF has come is thrown away when it is exactly as long as a line may be.
                    bytes.Length == WireLimits.MaxContentBytes
                    && !bytes.Contains((byte)'\n')
                        ? new Frame(FrameKind.Discard, 0, bytes.Length, false, false)
                        : LineFramer.Next(bytes, resyncing)
            ),
            "framer",
            "The framer finds other lines than the reference"
        );

    [Fact]
    public void A_journal_reader_that_skips_a_check_is_found() =>
        AssertFound(
            new JournalTarget(new CarelessReader()),
            "journal",
            "The reader gives a record that stands nowhere",
            mostBytes: 1000
        );

    [Fact]
    public void A_reader_of_encrypted_segments_that_does_not_look_at_the_tag_is_found() =>
        AssertFound(
            new SealedTarget(new TagBlindReader()),
            "sealed-journal",
            "A record comes out of an encrypted segment that was not sealed in it",
            mostBytes: 24_576
        );

    [Fact]
    public void A_verifier_that_does_not_mind_segments_in_the_clear_is_found() =>
        AssertFound(
            new SealedTarget(new ClearBlindVerifier()),
            "sealed-journal",
            "The verifier passes a record in the clear after encrypted ones that do not say so",
            mostBytes: 24_576
        );

    [Fact]
    public void A_reader_that_takes_a_segment_without_header_and_key_for_one_in_the_clear_is_found() =>
        AssertFound(
            new SealedTarget(new HeaderBlindReader()),
            "sealed-journal",
            "A record comes out of an encrypted segment that was not sealed in it",
            mostBytes: 24_576
        );

    [Fact]
    public void A_reader_of_tables_that_loses_a_last_row_without_a_line_end_is_found() =>
        AssertFound(
            TableBodies.Readings(static body =>
            {
                var table = TableBodies.Product(body);
                return body[^1] == (byte)'\n' || table.Rows.Count < 2
                    ? table
                    : table with
                    {
                        Rows = [.. table.Rows.SkipLast(1)],
                    };
            }),
            "readings",
            "A table that was taken is not the same when it is written plainly and read again"
        );

    private static void AssertFound(IFuzzTarget target, string name, string rule, int mostBytes = 300)
    {
        var failure = new FuzzLoop(target, seed: 7).Run(TargetList.Find(name)!.Short).Failure;
        Assert.NotNull(failure);
        Assert.Equal(rule, Finding.KindOf(failure.Reason));
        // What is told is small, and fails by itself.
        Assert.NotNull(Minimiser.Fails(target, failure.Input));
        Assert.True(failure.Input.Length < mostBytes, $"{failure.Input.Length} bytes were left of it.");
    }
}
