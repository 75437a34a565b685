namespace PupilBridge.Exams.Entries.Codec;

/// <summary>How people, their sign-ins and the day's list are written.</summary>
internal static class AccessFormats
{
    private const int AllRoles = (int)(
        PersonRoles.Examiner | PersonRoles.Clinician | PersonRoles.Technician | PersonRoles.Administrator
    );

    public static EntryFormat[] All => [Changed, SignedIn, DayList];

    private static OpenFormat<PersonChanged> Changed =>
        new(
            EntryKind.PersonChanged,
            1,
            static (w, e) =>
            {
                w.Person(e);
                w.Text(e.Person.Value);
                w.Count((int)e.Roles);
                w.Flag(e.IsEnabled);
                w.Text(e.What);
            },
            static (ref p) =>
            {
                var h = p.Open.Person();
                return new()
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.ProgramVersion,
                    Person = new(p.Open.Text()),
                    Roles = (PersonRoles)p.Open.Count(AllRoles),
                    IsEnabled = p.Open.Flag(),
                    What = p.Open.Text(),
                };
            }
        );

    private static OpenFormat<PersonSignedIn> SignedIn =>
        new(
            EntryKind.PersonSignedIn,
            // Version 1 knew one kind less; its bytes are read as they are.
            2,
            static (w, e) =>
            {
                w.Person(e);
                w.Text(e.Person.Value);
                w.Choice(e.Kind);
                w.Text(e.Where);
            },
            static (ref p) =>
            {
                var h = p.Open.Person();
                return new()
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.ProgramVersion,
                    Person = new(p.Open.Text()),
                    Kind = p.Open.Choice<SignInKind>(),
                    Where = p.Open.Text(),
                };
            }
        );

    private static OpenFormat<DayListEntered> DayList =>
        new(
            EntryKind.DayListEntered,
            1,
            static (w, e) =>
            {
                w.Person(e);
                w.Signed(e.Date.DayNumber);
                w.List(
                    e.Items,
                    static (w, item) =>
                    {
                        w.Text(item.Patient.Value);
                        w.Optional(item.MinuteOfDay, static (w, minute) => w.Count(minute));
                    }
                );
                w.Text(e.SourceName);
            },
            static (ref p) =>
            {
                var h = p.Open.Person();
                return new()
                {
                    Id = h.Id,
                    Who = h.Who,
                    At = h.At,
                    ProgramVersion = h.ProgramVersion,
                    Date = DateOnly.FromDayNumber(p.Open.Int32()),
                    Items = p.Open.List(
                        static (ref r) =>
                            new DayListItem
                            {
                                Patient = new(r.Text()),
                                MinuteOfDay = r.Optional(static (ref r) => r.Count(DayListItem.MinutesOfADay - 1)),
                            }
                    ),
                    SourceName = p.Open.Text(),
                };
            }
        );
}
