namespace PupilBridge.Exams.Entries.Codec;

/// <summary>How the service's own entries are written.</summary>
internal static class SystemFormats
{
    public static EntryFormat[] All =>
        [
            new OpenFormat<ServiceStarted>(
                EntryKind.ServiceStarted,
                1,
                static (w, e) =>
                {
                    w.Time(e.At);
                    w.Text(e.ProgramVersion);
                    w.Unsigned(e.Host.Value);
                },
                static (ref p) =>
                    new()
                    {
                        At = p.Open.Time(),
                        ProgramVersion = p.Open.Text(),
                        Host = new(checked((uint)p.Open.Unsigned())),
                    }
            ),
            new OpenFormat<ProfileInForce>(
                EntryKind.ProfileInForce,
                ProfileFields.Version,
                static (w, e) =>
                {
                    w.Time(e.At);
                    ProfileFields.Write(w, e.Profile);
                },
                static (ref p) => new() { At = p.Open.Time(), Profile = ProfileFields.Read(ref p.Open, p.Version) }
            ),
            new OpenFormat<SilenceReached>(
                EntryKind.SilenceReached,
                1,
                static (w, e) =>
                {
                    w.Time(e.At);
                    w.Serial(e.Serial);
                },
                static (ref p) => new() { At = p.Open.Time(), Serial = p.Open.Serial() }
            ),
        ];
}
