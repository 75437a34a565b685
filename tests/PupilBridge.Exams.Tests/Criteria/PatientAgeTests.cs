using PupilBridge.Exams.Criteria;

namespace PupilBridge.Exams.Tests.Criteria;

public class PatientAgeTests
{
    [Theory]
    [InlineData("1980-06-15", "2026-06-14", 45)]
    [InlineData("1980-06-15", "2026-06-15", 46)]
    [InlineData("2000-02-29", "2026-02-28", 25)]
    [InlineData("2000-02-29", "2026-03-01", 26)]
    [InlineData("2026-03-02", "2026-03-02", 0)]
    [InlineData("2026-03-03", "2026-03-02", 0)] // the clinic's calendar is a day ahead of UTC
    [InlineData("2026-03-04", "2026-03-02", null)]
    [InlineData("1896-03-02", "2026-03-02", 130)]
    [InlineData("1895-03-03", "2026-03-02", 130)]
    [InlineData("1895-03-02", "2026-03-02", null)]
    [InlineData("0001-01-01", "2026-03-02", null)]
    [InlineData("9999-12-31", "2026-03-02", null)]
    public void An_age_is_in_whole_years_and_an_impossible_birth_gives_none(string born, string day, int? age)
    {
        var (birth, on) = (Day(born), Day(day));
        Assert.Equal(age, PatientAge.At(birth, on));
        Assert.Equal(age is not null, PatientAge.IsPossible(birth, on));
    }

    [Fact]
    public void Without_a_date_of_birth_there_is_no_age() => Assert.Null(PatientAge.At(null, new DateOnly(2026, 3, 2)));

    private static DateOnly Day(string text) =>
        DateOnly.ParseExact(text, "yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);
}
