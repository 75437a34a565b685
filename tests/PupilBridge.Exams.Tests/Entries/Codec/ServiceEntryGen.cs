using CsCheck;
using PupilBridge.Exams.Entries;
using static PupilBridge.Exams.Tests.Entries.Codec.EntryParts;

namespace PupilBridge.Exams.Tests.Entries.Codec;

/// <summary>Random entries of the service and of what it heard from instruments.</summary>
internal static class ServiceEntryGen
{
    /// <summary>One generator for each kind, by the kind's type.</summary>
    public static readonly IReadOnlyDictionary<Type, Gen<JournalEntry>> ByKind = new Dictionary<Type, Gen<JournalEntry>>
    {
        [typeof(ServiceStarted)] = Gen.Select(Time, Text, Gen.UInt)
            .Select(
                (t, v, h) =>
                    (JournalEntry)
                        new ServiceStarted
                        {
                            At = t,
                            ProgramVersion = v,
                            Host = new(h),
                        }
            ),
        [typeof(ProfileInForce)] = Gen.Select(Time, ProfileGen.Any)
            .Select((t, p) => (JournalEntry)new ProfileInForce { At = t, Profile = p }),
        [typeof(SilenceReached)] = Gen.Select(Time, Serial)
            .Select((t, s) => (JournalEntry)new SilenceReached { At = t, Serial = s }),
        [typeof(InstrumentMet)] = Gen.Select(Time, Serial, Boot, Text, Text.Array[0, 8])
            .Select(
                (t, s, b, p, l) =>
                    (JournalEntry)
                        new InstrumentMet
                        {
                            At = t,
                            Serial = s,
                            Boot = b,
                            PortName = p,
                            RawLines = [.. l],
                        }
            ),
        [typeof(InstrumentReported)] = Gen.Select(Serial, Boot, Gen.Long, Text, Gen.Select(Time, Gen.Long, Time))
            .Select(
                (s, b, n, l, t) =>
                    (JournalEntry)
                        new InstrumentReported
                        {
                            Serial = s,
                            Boot = b,
                            Sequence = n,
                            RawLine = l,
                            HappenedAt = t.Item1,
                            UncertaintyMilliseconds = t.Item2,
                            ArrivedAt = t.Item3,
                        }
            ),
        [typeof(EventsLost)] = Gen.Select(Time, Serial, Boot, Gen.Long, Gen.Long.Nullable(), Gen.Enum<LossCause>())
            .Select(
                (t, s, b, f, l, c) =>
                    (JournalEntry)
                        new EventsLost
                        {
                            At = t,
                            Serial = s,
                            Boot = b,
                            First = f,
                            Last = l,
                            Cause = c,
                        }
            ),
        [typeof(EventsConflict)] = Gen.Select(Time, Serial, Boot, Gen.Long, Text)
            .Select(
                (t, s, b, n, l) =>
                    (JournalEntry)
                        new EventsConflict
                        {
                            At = t,
                            Serial = s,
                            Boot = b,
                            Sequence = n,
                            RawLine = l,
                        }
            ),
        [typeof(LineChanged)] = Gen.Select(Time, Serial.Nullable(), Text, Gen.Enum<LineState>(), Text)
            .Select(
                (t, s, p, l, r) =>
                    (JournalEntry)
                        new LineChanged
                        {
                            At = t,
                            Serial = s,
                            PortName = p,
                            State = l,
                            Reason = r,
                        }
            ),
        [typeof(CommandWished)] = Gen.Select(
                Time,
                Serial,
                Gen.Long,
                Text,
                Short.Select(s => new PersonId(s)).Nullable()
            )
            .Select(
                (t, s, n, c, w) =>
                    (JournalEntry)
                        new CommandWished
                        {
                            At = t,
                            Serial = s,
                            Number = n,
                            Command = c,
                            Who = w,
                        }
            ),
        [typeof(CommandEnded)] = Gen.Select(Time, Serial, Gen.Long, Gen.Enum<CommandOutcome>(), Text)
            .Select(
                (t, s, n, o, r) =>
                    (JournalEntry)
                        new CommandEnded
                        {
                            At = t,
                            Serial = s,
                            Number = n,
                            Outcome = o,
                            Reason = r,
                        }
            ),
    };
}
