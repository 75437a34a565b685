using System.Globalization;
using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Tracing;

/// <summary>Values of fields as a person says them.</summary>
internal static class FieldNames
{
    public static string Of(Eye eye) => eye == Eye.Right ? "right eye" : "left eye";

    public static string Of(Micrometres position) =>
        string.Create(CultureInfo.InvariantCulture, $"{position.Value} µm");

    public static string Of(InstrumentMode mode) =>
        mode switch
        {
            InstrumentMode.Idle => "idle",
            InstrumentMode.Measure => "measure",
            InstrumentMode.Sequence => "sequence",
            _ => "hold",
        };

    public static string Of(Block block) =>
        block switch
        {
            Block.None => "no block",
            Block.Direct => "block direct",
            Block.SwingShort => "block swing-short",
            Block.SwingLong => "block swing-long",
            _ => "block near",
        };
}
