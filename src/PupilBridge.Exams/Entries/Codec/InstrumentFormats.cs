namespace PupilBridge.Exams.Entries.Codec;

/// <summary>How entries about instruments are written.</summary>
internal static class InstrumentFormats
{
    public static EntryFormat[] All => [Met, Reported, Lost, Conflict, Line, Wished, Ended];

    private static OpenFormat<InstrumentMet> Met =>
        new(
            EntryKind.InstrumentMet,
            1,
            static (w, e) =>
            {
                w.Time(e.At);
                w.Serial(e.Serial);
                w.Boot(e.Boot);
                w.Text(e.PortName);
                w.List(e.RawLines, static (w, line) => w.Text(line));
            },
            static (ref p) =>
                new()
                {
                    At = p.Open.Time(),
                    Serial = p.Open.Serial(),
                    Boot = p.Open.Boot(),
                    PortName = p.Open.Text(),
                    RawLines = p.Open.List(static (ref r) => r.Text()),
                }
        );

    private static OpenFormat<InstrumentReported> Reported =>
        new(
            EntryKind.InstrumentReported,
            1,
            static (w, e) =>
            {
                w.Serial(e.Serial);
                w.Boot(e.Boot);
                w.Signed(e.Sequence);
                w.Text(e.RawLine);
                w.Time(e.HappenedAt);
                w.Signed(e.UncertaintyMilliseconds);
                // Arrival is mostly a moment after the event: the difference is short.
                w.Signed(unchecked(e.ArrivedAt.UnixMilliseconds - e.HappenedAt.UnixMilliseconds));
            },
            static (ref p) =>
            {
                var reported = new InstrumentReported
                {
                    Serial = p.Open.Serial(),
                    Boot = p.Open.Boot(),
                    Sequence = p.Open.Signed(),
                    RawLine = p.Open.Text(),
                    HappenedAt = p.Open.Time(),
                    UncertaintyMilliseconds = p.Open.Signed(),
                    ArrivedAt = default,
                };
                var delay = p.Open.Signed();
                return reported with { ArrivedAt = new(unchecked(reported.HappenedAt.UnixMilliseconds + delay)) };
            }
        );

    private static OpenFormat<EventsLost> Lost =>
        new(
            EntryKind.EventsLost,
            1,
            static (w, e) =>
            {
                w.Time(e.At);
                w.Serial(e.Serial);
                w.Boot(e.Boot);
                w.Signed(e.First);
                w.Optional(e.Last, static (w, last) => w.Signed(last));
                w.Choice(e.Cause);
            },
            static (ref p) =>
                new()
                {
                    At = p.Open.Time(),
                    Serial = p.Open.Serial(),
                    Boot = p.Open.Boot(),
                    First = p.Open.Signed(),
                    Last = p.Open.Optional(static (ref r) => r.Signed()),
                    Cause = p.Open.Choice<LossCause>(),
                }
        );

    private static OpenFormat<EventsConflict> Conflict =>
        new(
            EntryKind.EventsConflict,
            1,
            static (w, e) =>
            {
                w.Time(e.At);
                w.Serial(e.Serial);
                w.Boot(e.Boot);
                w.Signed(e.Sequence);
                w.Text(e.RawLine);
            },
            static (ref p) =>
                new()
                {
                    At = p.Open.Time(),
                    Serial = p.Open.Serial(),
                    Boot = p.Open.Boot(),
                    Sequence = p.Open.Signed(),
                    RawLine = p.Open.Text(),
                }
        );

    private static OpenFormat<LineChanged> Line =>
        new(
            EntryKind.LineChanged,
            1,
            static (w, e) =>
            {
                w.Time(e.At);
                w.OptionalText(e.Serial?.Value);
                w.Text(e.PortName);
                w.Choice(e.State);
                w.Text(e.Reason);
            },
            static (ref p) =>
                new()
                {
                    At = p.Open.Time(),
                    Serial = p.Open.Optional(static (ref r) => r.Serial()),
                    PortName = p.Open.Text(),
                    State = p.Open.Choice<LineState>(),
                    Reason = p.Open.Text(),
                }
        );

    private static OpenFormat<CommandWished> Wished =>
        new(
            EntryKind.CommandWished,
            1,
            static (w, e) =>
            {
                w.Time(e.At);
                w.Serial(e.Serial);
                w.Signed(e.Number);
                w.Text(e.Command);
                w.OptionalText(e.Who?.Value);
            },
            static (ref p) =>
                new()
                {
                    At = p.Open.Time(),
                    Serial = p.Open.Serial(),
                    Number = p.Open.Signed(),
                    Command = p.Open.Text(),
                    Who = p.Open.Optional(static (ref r) => new PersonId(r.Text())),
                }
        );

    private static OpenFormat<CommandEnded> Ended =>
        new(
            EntryKind.CommandEnded,
            1,
            static (w, e) =>
            {
                w.Time(e.At);
                w.Serial(e.Serial);
                w.Signed(e.Number);
                w.Choice(e.Outcome);
                w.Text(e.Reason);
            },
            static (ref p) =>
                new()
                {
                    At = p.Open.Time(),
                    Serial = p.Open.Serial(),
                    Number = p.Open.Signed(),
                    Outcome = p.Open.Choice<CommandOutcome>(),
                    Reason = p.Open.Text(),
                }
        );
}
