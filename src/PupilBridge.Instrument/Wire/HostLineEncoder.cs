namespace PupilBridge.Instrument.Wire;

/// <summary>Writes the lines of a host.</summary>
public static class HostLineEncoder
{
    /// <summary>Writes one line, its LF included.</summary>
    /// <param name="line">What to say.</param>
    /// <param name="destination">Room for at least <see cref="WireLimits.MaxLineBytes"/> bytes.</param>
    /// <returns>The number of bytes written.</returns>
    /// <exception cref="ArgumentException">The buffer is too short, or a value has no place on the line.</exception>
    public static int Encode(in HostLine line, Span<byte> destination)
    {
        var writer = new LineWriter(destination, TypeOf(line.Kind));
        writer.Host(line.Host);
        switch (line.Kind)
        {
            case HostLineKind.Who or HostLineKind.Take:
                writer.Version(line.LowestVersion);
                writer.Number(
                    line.HighestVersion,
                    line.LowestVersion,
                    WireLimits.VersionCeiling,
                    nameof(line.HighestVersion)
                );
                break;
            case HostLineKind.Command:
                writer.Number(line.CommandNumber, 1, uint.MaxValue, nameof(line.CommandNumber));
                WriteCommand(ref writer, line.Command);
                break;
            default:
                writer.Hex16(line.Boot.Value);
                var lowest = line.Kind == HostLineKind.Resend ? 1 : 0;
                writer.Number(line.Sequence, lowest, WireLimits.MaxSequence, nameof(line.Sequence));
                break;
        }

        return writer.End();
    }

    private static ReadOnlySpan<byte> TypeOf(HostLineKind kind) =>
        kind switch
        {
            HostLineKind.Who => "WHO"u8,
            HostLineKind.Take => "TAKE"u8,
            HostLineKind.Ack => "ACK"u8,
            HostLineKind.Resend => "RESEND"u8,
            HostLineKind.Command => "CMD"u8,
            _ => throw WordWriter.NoWord(nameof(kind), kind),
        };

    private static void WriteCommand(ref LineWriter writer, InstrumentCommand command)
    {
        switch (command.Kind)
        {
            case InstrumentCommandKind.Off:
                writer.Word("OFF"u8);
                break;
            case InstrumentCommandKind.Train when command.Block != Block.None:
                writer.Word("TRAIN"u8);
                writer.Block(command.Block);
                writer.Number(command.Stimuli, 1, WireLimits.MaxStimuli, nameof(command.Stimuli));
                writer.Number(
                    command.DwellMilliseconds,
                    1,
                    WireLimits.MaxTrainMilliseconds,
                    nameof(command.DwellMilliseconds)
                );
                writer.Number(
                    command.GapMilliseconds,
                    0,
                    WireLimits.MaxTrainMilliseconds,
                    nameof(command.GapMilliseconds)
                );
                break;
            default:
                throw WordWriter.NoWord(nameof(command), command.Kind);
        }
    }
}
