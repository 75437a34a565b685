using PupilBridge.Cohort.Population;
using PupilBridge.Instrument;

namespace PupilBridge.Cohort.Tests;

/// <summary>That what the clinic draws is what the sources say, where there is one.</summary>
public sealed class CalibrationTests
{
    private static readonly Prevalences NoSigns = new()
    {
        MarkedDifference = 0,
        Sympathetic = 0,
        Parasympathetic = 0,
        FixedPupil = 0,
        Afferent = 0,
        Blind = 0,
        AfferentBoth = 0,
        LightNearDissociation = 0,
        SmallBoth = 0,
        WideBoth = 0,
        Drops = 0,
        Surgery = 0,
        Changed = 0,
        EarlierVisit = 1,
    };

    private static readonly Person[] People =
    [
        .. Enumerable.Range(0, 5_000).Select(n => PersonDraw.Draw(NoSigns, 5, n)),
    ];

    // 24 of 128 people at any one examination: Lam BL, Thompson HS, Corbett JJ, Am J Ophthalmol 1987;104(1):69-73 (abstract).
    [Fact]
    public void Nineteen_percent_of_people_without_a_sign_differ_by_four_tenths()
    {
        var share = People.Average(p => Math.Abs(Difference(p)) >= 0.4 ? 1.0 : 0);
        // Four standard errors of 5,000 draws.
        Assert.InRange(share, 0.19 - 0.022, 0.19 + 0.022);
    }

    // 0.062·√40/2.0227 = 0.194 mm: computed from the interval of "Day to day variability of the dark-adapted pupil diameter".
    [Fact]
    public void Sizes_scatter_from_day_to_day_as_published()
    {
        var days = People.Select(p =>
            p.Before!.Eyes.Right.SizeOffsetMillimetres - p.Eyes.Eyes.Right.SizeOffsetMillimetres
        );
        var spread = Math.Sqrt(days.Average(d => d * d));
        Assert.InRange(spread, 0.194 - 0.008, 0.194 + 0.008);
    }

    [Fact]
    public void One_person_does_not_depend_on_who_else_is_drawn() =>
        Assert.Equal(PersonDraw.Draw(NoSigns, 5, 77), People[77]);

    private static double Difference(Person person) =>
        person.Eyes.Eyes[Eye.Right].SizeOffsetMillimetres - person.Eyes.Eyes[Eye.Left].SizeOffsetMillimetres;
}
