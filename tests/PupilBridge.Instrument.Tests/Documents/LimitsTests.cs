using System.Globalization;
using System.Text.RegularExpressions;
using PupilBridge.Instrument.Links;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Instrument.Tests.Documents;

/// <summary>The numbers of the page's table of limits are those of the code.</summary>
public class LimitsTests
{
    private static readonly Dictionary<string, double> InCode = new()
    {
        ["line, LF included"] = WireLimits.MaxLineBytes,
        ["version"] = WireLimits.VersionCeiling,
        ["sequence"] = WireLimits.MaxSequence,
        ["sequence above its tick"] = LinkTiming.EventsAhead,
        ["lost by the word of one line"] = LinkTiming.LossAtOnce,
        ["tick"] = long.MaxValue,
        ["position"] = WireLimits.MaxPositionMicrometres,
        ["resolution"] = WireLimits.MaxResolutionMicrometres,
        ["lamp level"] = 100,
        ["room light"] = WireLimits.MaxMillilux,
        ["lamp output"] = WireLimits.MaxMillilux,
        ["fault code"] = WireLimits.MaxFaultCode,
        ["text of a fault or a reason"] = AsciiText.MaxLength,
        ["serial number"] = SerialNumber.MaxLength,
        ["model"] = WireLimits.MaxModelLength,
        ["firmware"] = WireLimits.MaxFirmwareLength,
        ["ability letters"] = WireLimits.MaxAbilities,
        ["stops of the dial"] = WireLimits.MaxStops,
        ["kept events"] = LinkTiming.LeastKept,
        ["command number"] = uint.MaxValue,
        ["replies remembered"] = LinkTiming.RepliesRemembered,
        ["stimuli of a train"] = WireLimits.MaxStimuli,
        ["dwell of a train"] = WireLimits.MaxTrainMilliseconds,
        ["gap of a train"] = WireLimits.MaxTrainMilliseconds,
        ["seconds in `HELD`"] = WireLimits.MaxHeldSeconds,
        ["`BEAT`"] = LinkTiming.Heartbeat.TotalMilliseconds,
        ["stall"] = LinkTiming.Stall.TotalMilliseconds,
        ["greeting again"] = LinkTiming.Greeting.TotalMilliseconds,
        ["greeting again while held"] = LinkTiming.GreetingWhileHeld.TotalMilliseconds,
        ["greeting again without a common version"] = LinkTiming.GreetingWithoutVersion.TotalMilliseconds,
        ["host says something"] = LinkTiming.KeepAlive.TotalMilliseconds,
        ["hold"] = LinkTiming.Hold.TotalMilliseconds,
        ["repeated `ACK`"] = LinkTiming.RepeatedAck.TotalMilliseconds,
        ["`RESEND`"] = LinkTiming.Resend.TotalMilliseconds,
        ["quiet before a tail is taken for lost"] = LinkTiming.TailQuiet.TotalMilliseconds,
        ["instrument sends again"] = LinkTiming.Retransmission.TotalMilliseconds,
        ["command tried again"] = LinkTiming.CommandReply.TotalMilliseconds,
        ["tries of a command"] = LinkTiming.CommandTries,
        ["`POS`"] = LinkTiming.LivePosition.TotalMilliseconds,
        ["waiting to leave"] = LinkTiming.LineAhead.TotalMilliseconds,
        ["refusals"] = LinkTiming.Heartbeat.TotalMilliseconds,
    };

    [Fact]
    public void Each_row_has_the_codes_number_and_a_reason()
    {
        var section = ProtocolDocument.Text[ProtocolDocument.Text.IndexOf("## 19. Limits", StringComparison.Ordinal)..];
        var rows = Regex
            .Matches(
                section.Split("\n## ")[0],
                @"^\| (?<what>[^|]+) \| (?<limit>[^|]+) \| (?<why>[^|]+) \|$",
                RegexOptions.Multiline
            )
            .Where(m => m.Groups["what"].Value != "what")
            .ToDictionary(
                m => m.Groups["what"].Value,
                m => (Limit: m.Groups["limit"].Value, Why: m.Groups["why"].Value)
            );
        Assert.Equal(InCode.Keys.Order(), rows.Keys.Order());
        foreach (var (what, (limit, why)) in rows)
        {
            // A range ends with its highest number; a row with one number has only that.
            var number = Regex.Matches(limit, @"\d+")[^1].Value;
            Assert.True(InCode[what] == double.Parse(number, CultureInfo.InvariantCulture), $"{what}: {number}");
            Assert.True(why.Length > 5, $"{what} has no reason.");
        }
    }
}
