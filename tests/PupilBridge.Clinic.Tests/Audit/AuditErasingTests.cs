using PupilBridge.Clinic.Audit;

namespace PupilBridge.Clinic.Tests.Audit;

/// <summary>What an erasure leaves of a patient in the audit stream: that somebody was looked at, and not whom.</summary>
public sealed class AuditErasingTests
{
    private const string Number = "Q-1001-ERASEME";

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task After_an_erasure_no_byte_tells_the_number_and_the_notes_stand_under_the_mark(bool encrypt)
    {
        using var bench = new AuditBench(encrypt);
        bench.Enter(Number, "Q-1002");
        await bench.NoteAsync($"/patients/{Number}/visits", Number);
        await bench.NoteAsync("/exams", Number, "Q-1002");
        Assert.Equal(2, (await bench.ListAsync("q-1001-eraseme")).Count);
        Assert.Empty(bench.FilesWith(Number));

        var mark = bench.Erase(Number);

        for (var start = 0; start < 2; start++)
        {
            Assert.Empty(await bench.ListAsync(Number));
            var notes = await bench.ListAsync(mark);
            Assert.Equal([mark, "Q-1002"], notes[0].Patients);
            Assert.Equal(($"/patients/{mark}/visits", mark), (notes[1].Path, notes[1].Asked));
            Assert.Equal([mark], notes[1].Patients);
            Assert.Single(await bench.ListAsync("Q-1002"));
            Assert.Empty(bench.FilesWith(Number));
            bench.Restart();
        }

        Assert.True(bench.IsSound);
    }

    [Fact]
    public async Task Who_was_shown_the_number_a_moment_before_the_erasure_is_noted_under_the_mark()
    {
        using var bench = new AuditBench(encrypt: false);
        bench.Enter(Number);
        var mark = bench.Erase(Number);
        await bench.NoteAsync($"/patients/{Number}", Number);
        var note = Assert.Single(await bench.ListAsync());
        Assert.Equal([mark], note.Patients);
        Assert.Equal("/patients/{patient}", note.Path);
        Assert.Null(note.Asked);
        Assert.Empty(bench.Keys.Find(new(Number)));
        Assert.Empty(bench.FilesWith(Number));
    }

    [Fact]
    public async Task The_number_of_an_erased_patient_who_is_entered_anew_is_another_patients()
    {
        using var bench = new AuditBench(encrypt: false);
        bench.Enter(Number);
        await bench.NoteAsync(null, Number);
        var mark = bench.Erase(Number);
        bench.Enter(Number);
        await bench.NoteAsync(null, Number);
        Assert.Equal([Number], Assert.Single(await bench.ListAsync(Number)).Patients);
        Assert.Equal([mark], Assert.Single(await bench.ListAsync(mark)).Patients);
        Assert.Empty(bench.FilesWith(Number));
    }

    [Fact]
    public async Task A_number_that_no_patient_bears_is_not_kept_and_no_key_is_made_for_it()
    {
        using var bench = new AuditBench(encrypt: false);
        await bench.NoteAsync($"/api/v1/patients/{Number}/visits");
        var note = Assert.Single(await bench.ListAsync());
        Assert.Equal("/api/v1/patients/{patient}/visits", note.Path);
        Assert.Null(note.Asked);
        Assert.Empty(bench.Keys.Find(new(Number)));
        Assert.Empty(bench.FilesWith(Number));
    }

    [Fact]
    public async Task A_refused_look_at_a_living_patient_is_found_by_the_number()
    {
        using var bench = new AuditBench(encrypt: false);
        bench.Enter(Number);
        await bench.NoteAsync($"/patients/{Number}");
        Assert.Equal($"/patients/{Number}", Assert.Single(await bench.ListAsync(Number)).Path);
        Assert.Empty(bench.FilesWith(Number));
    }

    [Theory]
    [InlineData("/patients/Q-1", "/patients/{patient}", "Q-1")]
    [InlineData("/Patients/Q-1/sizes.svg", "/Patients/{patient}/sizes.svg", "Q-1")]
    [InlineData("/api/v1/patients/a%2Fb/visits", "/api/v1/patients/{patient}/visits", "a/b")]
    [InlineData("/patients/", "/patients/", null)]
    [InlineData("/patients", "/patients", null)]
    [InlineData("/exams/7", "/exams/7", null)]
    [InlineData(null, null, null)]
    public void A_number_is_taken_out_of_a_path_and_put_back(string? path, string? without, string? number)
    {
        Assert.Equal((without, number), PatientInPath.TakeOut(path));
        Assert.Equal(path, PatientInPath.PutBack(without, number));
    }
}
