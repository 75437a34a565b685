using System.Diagnostics;
using System.Globalization;
using System.Text;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Measure.Growth;

/// <summary>Events of one boot of an instrument, one after the other: a scale that comes to rest again and again.</summary>
internal sealed class EventStream
{
    private readonly BootNumber boot = new((ulong)Stopwatch.GetTimestamp());
    private long number;

    /// <summary>The next event, as it is given to the journal.</summary>
    public InstrumentReported Next()
    {
        number++;
        var body = string.Create(
            CultureInfo.InvariantCulture,
            $"EV,{boot},{number},{number * 40},REST,R,{2000 + (number % 20_000)}"
        );
        var now = UtcTime.From(TimeProvider.System.GetUtcNow());
        return new InstrumentReported
        {
            Serial = new SerialNumber("QA-0799"),
            Boot = boot,
            Sequence = number,
            RawLine = string.Create(
                CultureInfo.InvariantCulture,
                $"{body}*{LineCrc.Of(Encoding.ASCII.GetBytes(body)):X8}"
            ),
            HappenedAt = now,
            UncertaintyMilliseconds = 2,
            ArrivedAt = now,
        };
    }
}
