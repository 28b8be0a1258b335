from django.urls import path

from jobs.quotes import approval_views, truss_views, views, working_views
from jobs.quotes.customer import after_views, opening
from jobs.quotes.customer import views as customer_views
from jobs.quotes.drafts import alternative_views, copy_views
from jobs.quotes.drafts import views as draft_views
from jobs.quotes.listing import quote_views
from jobs.quotes.listing import views as listing_views
from jobs.quotes.rights import views as rights_views

urlpatterns = [
    path("quotes/", listing_views.quotes, name="quotes"),
    path("surveys/<str:survey_number>/quote/", draft_views.quote_new, name="quote_new"),
    path("quotes/<str:number>/", views.quote, name="quote"),
    path("quotes/<str:number>/revisions/", draft_views.revision_new, name="revision_new"),
    path("quotes/<str:number>/link/", views.link_new, name="link_new"),
    path("quotes/<str:number>/link/end/", views.link_end, name="link_end"),
    path("quotes/<str:number>/follow-up/", quote_views.quote_follow_up, name="quote_follow_up"),
    path("quotes/<str:number>/followed-up/", quote_views.quote_followed_up, name="quote_followed_up"),
    path("quotes/<str:number>/<str:letter>/", views.quote, name="revision"),
    path("quotes/<str:number>/<str:letter>/choices/", draft_views.revision_choices, name="revision_choices"),
    path("quotes/<str:number>/<str:letter>/landed/", draft_views.revision_landed, name="revision_landed"),
    path("quotes/<str:number>/<str:letter>/issue/", views.revision_issue, name="revision_issue"),
    path(
        "quotes/<str:number>/<str:letter>/approve/", approval_views.revision_approve, name="revision_approve"
    ),
    path(
        "quotes/<str:number>/<str:letter>/ask-owner/",
        approval_views.revision_ask_owner,
        name="revision_ask_owner",
    ),
    path("quotes/<str:number>/<str:letter>/rights/", rights_views.revision_rights, name="revision_rights"),
    path(
        "quotes/<str:number>/<str:letter>/rights/paper/",
        rights_views.revision_rights_paper,
        name="revision_rights_paper",
    ),
    path("quotes/<str:number>/<str:letter>/goods-came/", rights_views.goods_came, name="goods_came"),
    path(
        "quotes/<str:number>/<str:letter>/cancelled/settle/",
        rights_views.cancellation_settle,
        name="cancellation_settle",
    ),
    path(
        "quotes/<str:number>/<str:letter>/cancelled/",
        rights_views.cancellation_write_down,
        name="cancellation_write_down",
    ),
    path("quotes/<str:number>/<str:letter>/withdraw/", views.revision_withdraw, name="revision_withdraw"),
    path("quotes/<str:number>/<str:letter>/copy/", copy_views.revision_copy, name="revision_copy"),
    path(
        "quotes/<str:number>/<str:letter>/declined/", quote_views.revision_declined, name="revision_declined"
    ),
    path("quotes/<str:number>/<str:letter>/reprice/", draft_views.revision_reprice, name="revision_reprice"),
    path("quotes/<str:number>/<str:letter>/discard/", draft_views.revision_discard, name="revision_discard"),
    path(
        "quotes/<str:number>/<str:letter>/alternatives/",
        alternative_views.alternative_add,
        name="alternative_add",
    ),
    path(
        "quotes/<str:number>/<str:letter>/alternatives/name/",
        alternative_views.alternative_rename,
        name="alternative_rename",
    ),
    path(
        "quotes/<str:number>/<str:letter>/alternatives/remove/",
        alternative_views.alternative_remove,
        name="alternative_remove",
    ),
    path("quotes/<str:number>/<str:letter>/paper/", views.revision_paper, name="revision_paper"),
    path(
        "quotes/<str:number>/<str:letter>/working/", working_views.revision_working, name="revision_working"
    ),
    path(
        "quotes/<str:number>/<str:letter>/truss-designer/",
        truss_views.revision_truss_letter,
        name="revision_truss_letter",
    ),
    path("questions/<int:pk>/answered/", views.question_answered, name="question_answered"),
    path("q/<str:token>/", opening.customer_exchange, name="customer_exchange"),
    path("your-quote/<str:number>/", customer_views.customer_quote, name="customer_quote"),
    path("your-quote/<str:number>/accept/", customer_views.customer_accept, name="customer_accept"),
    path("your-quote/<str:number>/decline/", customer_views.customer_decline, name="customer_decline"),
    path("your-quote/<str:number>/ask/", customer_views.customer_ask, name="customer_ask"),
    path("your-quote/<str:number>/paper/", customer_views.customer_paper, name="customer_paper"),
    path("your-quote/<str:number>/rights/", after_views.customer_rights_paper, name="customer_rights_paper"),
    path("your-quote/<str:number>/start/", after_views.customer_early_start, name="customer_early_start"),
    path(
        "your-quote/<str:number>/cancelled/<str:letter>/",
        after_views.customer_settlement,
        name="customer_settlement",
    ),
    path("your-quote/<str:number>/cancel/", after_views.customer_cancel, name="customer_cancel"),
]
