using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using PupilBridge.Clinic;
using PupilBridge.Console.Hosting;

namespace PupilBridge.Console.SignIn;

/// <summary>All that stands between a browser and the pages.</summary>
internal static class SignInSetup
{
    /// <summary>The scheme that looks which of the others a request is for: the cookie of a page, or the key of a program.</summary>
    private const string Door = "Door";

    /// <summary>How long a cookie stands by itself; whether its session does, the book says with each request.</summary>
    private static readonly TimeSpan CookieFor = TimeSpan.FromDays(1);

    /// <summary>Adds the services.</summary>
    public static void Add(IServiceCollection services, ConsoleSettings settings)
    {
        services
            .AddDataProtection()
            .SetApplicationName("PupilBridge")
            .PersistKeysToFileSystem(new DirectoryInfo(AccessKeys.Make(settings.DataFolder)));
        services.AddSingleton<SessionBook>();
        services.AddSingleton<Seat>();
        services.AddSingleton<SessionDoor>();
        services.AddSingleton<OwnSessions>();
        services.AddSingleton<SessionCheck>();
        services.AddSingleton<SignInPace>();
        services.AddSingleton<SignInOffice>();
        services.AddSingleton<PasswordAgain>();
        services.AddSingleton<HostNames>();
        services.AddSingleton<FormGuard>();
        services.AddHostedService<SessionWatch>();
        services.AddScoped<CallerDesks>();
        // Whoever asks for a desk gets the guarded one; there is no other way to any.
        services.AddScoped<IClinicDesk>(provider => provider.GetRequiredService<CallerDesks>().Clinic);
        services.AddScoped<ILaneDesk>(provider => provider.GetRequiredService<CallerDesks>().Lanes);
        services.AddScoped<IRecordDesk>(provider => provider.GetRequiredService<CallerDesks>().Records);
        services.AddScoped<IBenchDesk>(provider => provider.GetRequiredService<CallerDesks>().Bench);
        services.AddSingleton<IAuthorizationMiddlewareResultHandler, RoleRefusal>();
        services
            .AddAuthentication(Door)
            .AddPolicyScheme(
                Door,
                null,
                options =>
                    options.ForwardDefaultSelector = context =>
                        KeySignIn.IsBrought(context)
                            ? KeySignIn.SchemeName
                            : CookieAuthenticationDefaults.AuthenticationScheme
            )
            .AddScheme<AuthenticationSchemeOptions, KeySignIn>(KeySignIn.SchemeName, null)
            .AddCookie(options =>
            {
                options.Cookie.Name = CookieNames.Of(settings, "pupilbridge");
                options.Cookie.HttpOnly = true;
                options.Cookie.SameSite = SameSiteMode.Strict;
                options.Cookie.SecurePolicy = Secure(settings);
                options.Cookie.Path = "/";
                options.ExpireTimeSpan = CookieFor;
                options.SlidingExpiration = false;
                options.EventsType = typeof(SessionCheck);
            });
        services.AddAuthorization(PagePolicies.Add);
        services.AddAntiforgery(options =>
        {
            options.HeaderName = FormGuard.Header;
            options.Cookie.Name = CookieNames.Of(settings, "pupilbridge-form");
            options.Cookie.HttpOnly = true;
            options.Cookie.SameSite = SameSiteMode.Strict;
            options.Cookie.SecurePolicy = Secure(settings);
            options.SuppressXFrameOptionsHeader = true;
        });
    }

    /// <summary>What is asked of every request before anything is looked up for it.</summary>
    public static void UseOutside(WebApplication app)
    {
        var settings = app.Services.GetRequiredService<ConsoleSettings>();
        app.Use(next => context => SecurityHeaders.AddAsync(context, settings, next));
        app.Use(next => context => app.Services.GetRequiredService<HostNames>().CheckAsync(context, next));
    }

    /// <summary>Which methods there are, and how much a request may bring along; within what puts refusals into words.</summary>
    public static void UseLimits(WebApplication app)
    {
        app.Use(next => context => KnownMethods.CheckAsync(context, next));
        app.Use(next => context => BodyLimits.SetAsync(context, next));
    }

    /// <summary>Who it is, and whether they may; after routing and before the pages.</summary>
    public static void UseInside(WebApplication app)
    {
        app.UseAuthentication();
        // Where nothing is, nobody needs to sign in to learn it.
        app.Use(next =>
            context =>
            {
                if (context.GetEndpoint() is not null)
                {
                    return next(context);
                }

                context.Response.StatusCode = StatusCodes.Status404NotFound;
                return Task.CompletedTask;
            }
        );
        app.Use(next => context => app.Services.GetRequiredService<FormGuard>().CheckAsync(context, next));
        app.UseAuthorization();
        app.UseAntiforgery();
    }

    private static CookieSecurePolicy Secure(ConsoleSettings settings) =>
        CookieNames.IsSecure(settings) ? CookieSecurePolicy.Always : CookieSecurePolicy.SameAsRequest;
}
